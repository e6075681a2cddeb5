// Command everyseat turns measured stands and a message into a card stunt: which
// colour every seat shows, the camera's picture of it, and the paper to lay it out.
package main

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
)

func main() {
	// Whatever breaks, nobody is shown a stack trace: not by run, and not by a
	// goroutine that run cannot watch.
	debug.SetTraceback("none")
	// Garbage may pile up to twice what is used, which saves a tenth of the time at 1,000 seats; from here on it is
	// collected more often, which keeps a stadium's peak near 512 MB.
	if os.Getenv("GOGC") == "" && os.Getenv("GOMEMLIMIT") == "" {
		debug.SetGCPercent(200)
		debug.SetMemoryLimit(450 << 20)
	}
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// The exit codes.
const (
	exitDone  = 0
	exitFault = 1 // something in the stunt or a file is wrong
	exitUsage = 2 // wrong use of the command
	// exitStopped: somebody stopped it, 128 and the signal's number, which is 2 for Ctrl-C.
	exitStopped = 130
)

// run does what the arguments say and gives the exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	out := &outlet{Writer: stdout}
	voice := &voice{out: out, err: stderr}
	defer func() {
		if broken := recover(); broken != nil {
			voice.fail(fmt.Errorf("something broke inside: %v", broken),
				"this is a fault of everyseat: please report the command and the stunt file")
			code = exitFault
		}
	}()
	defer voice.heedStops()()
	root := newRoot(voice)
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(out)
	root.SetErr(stderr)
	code = voice.exit(root.Execute())
	if code == exitDone && out.err != nil {
		voice.fail(fmt.Errorf("standard output cannot be written: %s", plainCause(out.err)),
			"the files are whole; what there is to say about them is not: send it elsewhere")
		return exitFault
	}
	return code
}

// outlet remembers what first went wrong with it.
type outlet struct {
	io.Writer
	err error
}

func (o *outlet) Write(p []byte) (int, error) {
	n, err := o.Writer.Write(p)
	o.err = cmp.Or(o.err, err)
	return n, err
}

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
		verb := ""
		if cmd.HasParent() {
			verb = cmd.Name()
		}
		return usage("everyseat help "+verb+" shows the flags", "%w", err)
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

func unknownVerb(cmd *cobra.Command, word string) error {
	hint := "everyseat help lists the verbs"
	if near := cmd.SuggestionsFor(word); len(near) > 0 {
		hint = "did you mean everyseat " + near[0] + "?"
	}
	return usage(hint, "there is no verb %q", word)
}

// atMostOne refuses more arguments than a verb takes.
func atMostOne(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) == 1 && strings.TrimSpace(args[0]) == "":
			return usage("write its name, such as "+cmd.Root().Name()+" "+cmd.Name()+" ourfinale",
				"the %s has no name", what)
		case len(args) <= 1:
			return nil
		}
		return usage("everyseat help "+cmd.Name()+" shows how it is used",
			"%s takes one %s, not %q as well", cmd.Name(), what, args[1])
	}
}

// stuntFlags are the flags of verbs that work on a STUNT. Which cue is meant, and what for, not all of them ask.
type stuntFlags struct {
	out    string
	cue    int
	strict bool
}

// onStunt gives a verb its STUNT, which is the folder one is in where nothing is named, and the flags
// that all such verbs have.
func onStunt(cmd *cobra.Command, o *stuntFlags, run func(path string) error) *cobra.Command {
	cmd.Args = atMostOne("STUNT")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if cmd.Flags().Changed("cue") && o.cue < 1 {
			return usage("cues count from 1", "there is no cue %d", o.cue)
		}
		return run(append(args, ".")[0])
	}
	cmd.Flags().StringVar(&o.out, "out", "", "`DIR` to write into (default: out beside the stunt file)")
	cmd.Flags().BoolVar(&o.strict, "strict", false, "warnings count as faults: write nothing, exit 1")
	return cmd
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
