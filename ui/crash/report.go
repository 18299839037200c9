package crash

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"parewell/recipes/words"
)

// Marks at the head of the lines that are ours; all others are the runtime's.
const (
	headMark = "program "
	keyMark  = "did "
)

// reportsKept is how many reports stay.
const reportsKept = 5

// longestRun is after how long a run that said nothing is taken to have ended,
// by the power cord or the like.
const longestRun = 60 * 24 * time.Hour

// Report tells of a program that broke off.
type Report struct {
	Path string // where it is kept
	Text string
	At   time.Time // when it broke off
}

// Collect makes reports of the runs that broke off since the last start and
// returns the newest of them; false when none did. What cannot be read or written
// is let be: a program that starts is not stopped by one that did not.
func Collect(state string, now time.Time) (newest Report, any bool) {
	dir := filepath.Join(state, folderName)
	runs, _ := filepath.Glob(filepath.Join(dir, runningPattern)) // fails on a bad pattern only
	for _, run := range runs {
		r, ok := collect(dir, run, now)
		if ok && (!any || r.At.After(newest.At)) {
			newest, any = r, true
		}
	}
	tidy(dir)
	return newest, any
}

// collect turns the file of one run into a report. A run without a word of the
// runtime's may still be going on.
func collect(dir, run string, now time.Time) (Report, bool) {
	st, err := os.Stat(run)
	if err != nil {
		return Report{}, false
	}
	raw, err := os.ReadFile(run)
	if err != nil {
		return Report{}, false
	}
	head, keys, said := split(string(raw))
	if len(said) == 0 {
		if now.Sub(st.ModTime()) > longestRun {
			os.Remove(run)
		}
		return Report{}, false
	}
	if os.Remove(run) != nil { // another window was quicker, or it may not be: then it is told again
		return Report{}, false
	}
	at := st.ModTime()
	r := Report{
		Path: filepath.Join(dir, at.UTC().Format(stamp)+".txt"), At: at,
		Text: compose(head, at, keys, said),
	}
	if keep(r.Path, r.Text) != nil {
		r.Path = ""
	}
	return r, true
}

// keep writes a report that is whole or not there.
func keep(path, text string) error {
	t, err := os.CreateTemp(filepath.Dir(path), ".report-*")
	if err != nil {
		return err
	}
	defer os.Remove(t.Name()) //nolint:errcheck // gone already when all went well
	_, err = t.WriteString(text)
	if err = errors.Join(err, t.Sync(), t.Close()); err != nil {
		return err
	}
	return os.Rename(t.Name(), path)
}

// split parts a run's file into what it says of the program, the keys, and what
// the runtime said.
func split(raw string) (head string, keys, said []string) {
	for line := range strings.Lines(raw) {
		line = strings.TrimRight(line, "\r\n")
		if h, ours := strings.CutPrefix(line, headMark); ours && len(said) == 0 {
			head = h
		} else if k, ours := strings.CutPrefix(line, keyMark); ours && keyForm.MatchString(k) {
			keys = append(keys, k)
		} else if line != "" || len(said) > 0 {
			said = append(said, line)
		}
	}
	return head, keys[max(0, len(keys)-keysKept):], said
}

// compose writes a report.
func compose(head string, at time.Time, keys, said []string) string {
	var b strings.Builder
	line := func(s string) { b.WriteString(s + "\n") }
	line(head)
	line(words.Say("crash.at", at.UTC().Format(time.RFC3339)))
	line("")
	line(words.Say("crash.keys"))
	for _, k := range keys {
		line("  " + k)
	}
	line("")
	line(words.Say("crash.where"))
	for _, s := range stack(said) {
		line("  " + s)
	}
	return b.String()
}

var (
	goroutineForm = regexp.MustCompile(`^goroutine \d+ .*\[[a-z ,0-9()]+\]:$`)
	signalLine    = regexp.MustCompile(`^SIG[A-Z]+: [a-z ]+$`)
	signalForm    = regexp.MustCompile(`^\[signal [A-Z0-9x]+[a-z :0-9=]*\]$`)
	frameForm     = regexp.MustCompile(`^(created by )?[A-Za-z0-9_./()*\[\]{}~%@,-]+( in goroutine \d+)?$`)
	placeForm     = regexp.MustCompile(`^\t(?:.*/)?([^/]+/[^/]+\.(?:go|s|c):\d+)(?: \+0x[0-9a-f]+)?$`)
	argumentsForm = regexp.MustCompile(`\((\.\.\.|[0-9a-fx?, {}.]*)\)$`)
)

// stack keeps of what the runtime said the faults it words itself, the names of
// functions and the places in the code, without folders. What a panic was given
// could quote a recipe, so only what kind of thing was said is told of it.
func stack(said []string) []string {
	var out []string
	inStack := false
	for _, s := range said {
		switch {
		case goroutineForm.MatchString(s):
			inStack = true
			out = append(out, s)
		case signalForm.MatchString(s), signalLine.MatchString(s):
			out = append(out, s)
		case !inStack:
			if f := fault(s); f != "" {
				out = append(out, f)
			}
		case placeForm.MatchString(s):
			out = append(out, "    "+placeForm.FindStringSubmatch(s)[1])
		default:
			if f := argumentsForm.ReplaceAllString(s, ""); frameForm.MatchString(f) {
				out = append(out, f)
			}
		}
	}
	return out
}

// runtimeFaults are how faults begin that the runtime words itself, of numbers
// and types alone (package runtime, error.go and panic.go).
var runtimeFaults = []string{
	"panic: runtime error: index out of range", "panic: runtime error: slice bounds out of range", "panic: runtime error: invalid memory address",
	"panic: runtime error: integer divide by zero", "panic: runtime error: makeslice: ", "panic: runtime error: hash of unhashable type ",
	"panic: assignment to entry in nil map", "panic: close of ", "panic: send on closed channel", "panic: interface conversion: ",
	"fatal error: ", "runtime: ", "unexpected fault address",
}

// wordedByRuntime is a fatal error's text as the runtime has it: plain words.
var wordedByRuntime = regexp.MustCompile(`^[A-Za-z0-9 :;,.*/\[\]()'{}=_+-]+$`)

// fault is what may be told of a line before the stacks; "" for nothing.
func fault(s string) string {
	t := strings.TrimSpace(s)
	for _, f := range runtimeFaults {
		if strings.HasPrefix(t, f) && wordedByRuntime.MatchString(t) {
			return t
		}
	}
	if strings.HasPrefix(t, "panic: ") {
		return words.Say("crash.panic")
	}
	return ""
}

// tidy lets go of all but the newest reports.
func tidy(dir string) {
	all, _ := filepath.Glob(filepath.Join(dir, reportPattern)) // fails on a bad pattern only
	slices.Sort(all)
	for _, old := range all[:max(0, len(all)-reportsKept)] {
		os.Remove(old)
	}
}
