package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Exit codes (DESIGN section 10): only check gives 1.
const (
	exitWell    = 0
	exitProblem = 1
	exitBad     = 2
)

// call is one use of a command: its arguments and the three streams.
type call struct {
	name     string
	args     []string
	in       io.Reader
	out, err io.Writer
}

// command is a subcommand: what it does, and the flags it takes.
type command struct {
	run   func(*call) (int, error)
	flags []flagSpec
}

// commands lists the subcommands by name; help has "help.NAME" for each.
func commands() map[string]command {
	return map[string]command{
		"demo":    {runDemo, nil},
		"compare": {runCompare, compareFlags},
		"foods":   {runFoods, foodsFlags},
		"import":  {runImport, importFlags},
		"export":  {runExport, exportFlags},
		"check":   {runCheck, nil},
		"data":    {runData, dataFlags},
		"claims":  {runClaims, claimsFlags},
		"print":   {runPrint, printFlags},

		"analyse":      {runAnalyse, analyseFlags},
		"plan":         {runPlan, planFlags},
		"discriminate": {runDiscriminate, discriminateFlags},
		"tasting":      {runTasting, tastingFlags},
		"ledger":       {runLedger, ledgerFlags},
	}
}

// commandNames in the order help lists them.
var commandNames = []string{"demo", "compare", "import", "foods", "export", "print", "claims", "plan", "tasting", "ledger", "analyse", "discriminate", "data", "check"}

// run does what args ask and returns the exit code. All that goes wrong is one
// line on errOut.
func run(args []string, in io.Reader, out, errOut io.Writer) int {
	if err := chooseLanguage(os.Getenv(words.LanguageVariable)); err != nil {
		complain(errOut, err)
		return exitBad
	}
	code, err := dispatch(&call{args: args, in: in, out: out, err: errOut})
	if err != nil {
		complain(errOut, err)
		return exitBad
	}
	return code
}

func dispatch(c *call) (int, error) {
	if len(c.args) == 0 {
		return exitWell, openWindow("")
	}
	first := c.args[0]
	switch first {
	case "help", "--help", "-h":
		return exitWell, help(c.out, c.args[1:])
	case "--version":
		_, err := fmt.Fprintln(c.out, words.Say("cmd.version", programName, version))
		return exitWell, err
	}
	cmd, known := commands()[first]
	if !known {
		return exitWell, openOrSuggest(c.args)
	}
	c.name, c.args = first, c.args[1:]
	if asksHelp(c.args) {
		return exitWell, help(c.out, []string{first})
	}
	return cmd.run(c)
}

// openOrSuggest opens the window on what must be a workbook, or says that there
// is no such command: a bare word that is no file was meant as one.
func openOrSuggest(args []string) error {
	first := args[0]
	if strings.HasPrefix(first, "-") && first != "-" {
		return problem.New(first, words.Say("cmd.no-flag-alone"), words.Say("cmd.see-help"))
	}
	_, err := os.Stat(first)
	if err != nil && !strings.ContainsAny(first, "./\\") {
		return problem.New(first, words.Say("cmd.no-command"), hintNearest(first, append([]string{"help"}, commandNames...)))
	}
	if len(args) > 1 {
		return problem.New(args[1], words.Say("cmd.one-workbook"), words.Say("cmd.see-help"))
	}
	if err := mustBeFile(first); err != nil {
		return err
	}
	return openWindow(first)
}

// complain is the one place where an error meets a person here: one line.
func complain(w io.Writer, err error) {
	text := strings.Join(strings.Fields(err.Error()), " ")
	_, _ = fmt.Fprintln(w, words.Say("cmd.complaint", text))
}
