package main

import (
	"errors"
	"runtime/debug"

	"github.com/spf13/cobra"
)

const about = `everyseat plans a card stunt: a picture made of people in the stands, each
holding a coloured card, so that a word or an image reads from the camera's mark.
You give it the stands as measured with a tape, the mark and the message. It says
which colour every seat shows, draws what the film will show, and prints the
paper that a crew lays the cards by.

Start with the worked example, then make a stunt of your own:

  everyseat demo                 a complete stunt, built into the folder gullhaven
  everyseat new ourfinale        a fresh stunt.toml that explains itself
  everyseat build ourfinale      the plan, the pictures and the paper, in ourfinale/out

Lengths carry their unit: "18in", "9 5/8in", "5'6\"", "0.46 m". Left and right are
always as the camera sees the stands.

Exit status: 0 done; 1 something in the stunt or a file is wrong; 2 wrong use.`

// usageTemplate shows how a verb is used, with examples before flags.
const usageTemplate = `Usage:{{if .Runnable}}
  {{if .HasParent}}{{.UseLine}}{{else}}everyseat VERB [arguments] [flags]{{end}}{{end}}{{if .HasExample}}

Examples:
{{.Example}}{{end}}{{if .HasAvailableSubCommands}}

Verbs:{{range .Commands}}{{if .IsAvailableCommand}}
  {{rpad .Name .NamePadding}} {{.Short}}{{end}}{{end}}{{end}}{{if .HasAvailableLocalFlags}}

Flags:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}{{end}}{{if .HasAvailableSubCommands}}

everyseat help VERB explains a verb, with examples.{{end}}
`

// newRoot is the command with all its verbs.
func newRoot(v *voice) *cobra.Command {
	root := &cobra.Command{
		Use:           "everyseat",
		Short:         "plans card stunts that read from the camera's mark",
		Long:          about,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs,

		SuggestionsMinimumDistance: 2,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			return unknownVerb(cmd, args[0])
		},
	}
	root.SetVersionTemplate("everyseat {{.Version}}\n")
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usage("everyseat help "+helpOf(cmd)+" shows the flags", "%w", err)
	})
	root.SetUsageTemplate(usageTemplate)
	root.AddCommand(newDemo(v), newNew(v), newBuild(v), newMarks(v), newPeople(v))
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, cmd := range append(root.Commands(), root) {
		switch cmd.Name() {
		case "completion":
			cmd.Short = "make your shell complete verbs and flags"
		case "help":
			explain := cmd.Run
			cmd.Run, cmd.RunE = nil, func(cmd *cobra.Command, args []string) error {
				if found, _, err := root.Find(args); err != nil || len(args) > 0 && found == root {
					return unknownVerb(root, args[0])
				}
				explain(cmd, args)
				return nil
			}
		}
		cmd.InitDefaultHelpFlag() // it is there, and need not be explained in every verb
		cmd.Flags().Lookup("help").Hidden = true
	}
	return root
}

func helpOf(cmd *cobra.Command) string {
	if cmd.HasParent() {
		return cmd.Name()
	}
	return ""
}

func unknownVerb(cmd *cobra.Command, word string) error {
	hint := "everyseat help lists the verbs"
	if near := cmd.SuggestionsFor(word); len(near) > 0 {
		hint = "did you mean everyseat " + near[0] + "?"
	}
	return usage(hint, "there is no verb %q", word)
}

// atMost refuses more arguments than a verb takes.
func atMost(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) <= n {
			return nil
		}
		return usage("everyseat help "+cmd.Name()+" shows how it is used", "%s takes %s, not %q as well", cmd.Name(), what, args[n])
	}
}

// stuntOf is the STUNT of a verb: its argument, or the folder one is in.
func stuntOf(args []string) string {
	if len(args) > 0 {
		return args[0]
	}
	return "."
}

// checkCue refuses a --cue that was given and counts from nowhere.
func checkCue(cmd *cobra.Command, cue int) error {
	if cmd.Flags().Changed("cue") && cue < 1 {
		return usage("cues count from 1", "there is no cue %d", cue)
	}
	return nil
}

// version is the module's version, or the commit that was built.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return "development " + s.Value[:min(12, len(s.Value))]
		}
	}
	return "development"
}

// errStrict ends a build whose warnings count as faults.
var errStrict = errors.New("warnings count with --strict: nothing was written")
