// Package sheets makes the paper that the crew carries, as PDF. Start with
// Placards and Rows.
//
// Left and right are as the camera sees the stands; wherever paper goes into
// the stands it says so, and what that is for somebody who sits there. No
// sheet tells two things apart by colour alone: each colour has a letter
// and a pattern too. The same plan gives the same bytes.
package sheets
