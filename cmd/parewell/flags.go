package main

import (
	"slices"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// flagSpec is one flag of a command; a flag with no value is a switch.
type flagSpec struct {
	name  string // without dashes
	value bool
}

// given is what a command line said: flags with their values ("" for a switch)
// and the operands in order.
type given struct {
	flags    map[string]string
	operands []string
}

// has tells whether a switch was given.
func (g *given) has(name string) bool {
	_, ok := g.flags[name]
	return ok
}

// parse reads flags and operands in any order. "--" ends the flags, "-" alone
// is an operand (standard input), and "--name=value" is the same as
// "--name value".
func parse(args []string, specs []flagSpec) (*given, error) {
	g := &given{flags: map[string]string{}}
	for i := 0; i < len(args); i++ {
		a := args[i]
		if a == "--" {
			g.operands = append(g.operands, args[i+1:]...)
			break
		}
		if a == "-" || !strings.HasPrefix(a, "-") {
			g.operands = append(g.operands, a)
			continue
		}
		name, value, joined := strings.Cut(strings.TrimLeft(a, "-"), "=")
		at := slices.IndexFunc(specs, func(s flagSpec) bool { return s.name == name })
		switch {
		case at < 0:
			return nil, noFlag(a, specs)
		case !specs[at].value && joined:
			return nil, problem.New("--"+name, words.Say("cmd.flag-no-value"), "")
		case specs[at].value && !joined:
			i++
			if i == len(args) || args[i] == "--" {
				return nil, problem.New("--"+name, words.Say("cmd.flag-value"), words.Say("cmd.see-help"))
			}
			value = args[i]
		}
		if g.has(name) {
			return nil, problem.New("--"+name, words.Say("cmd.flag-twice"), "")
		}
		g.flags[name] = value
	}
	return g, nil
}

// noFlag refuses a flag the command does not take.
func noFlag(typed string, specs []flagSpec) error {
	names := make([]string, 0, len(specs))
	for _, s := range specs {
		names = append(names, "--"+s.name)
	}
	plain, _, _ := strings.Cut(typed, "=")
	return problem.New(plain, words.Say("cmd.no-flag"), hintNearest("--"+strings.TrimLeft(plain, "-"), names))
}

// oneFile holds a command to the one workbook it takes.
func oneFile(c *call, g *given) error {
	if len(g.operands) != 1 {
		return problem.New(c.name, words.Say("cmd.one-file"), words.Say("cmd.see-help-of", c.name))
	}
	return nil
}

// toFolder holds a command that writes files to the folder of --to.
func toFolder(c *call, g *given) error {
	if g.flags["to"] == "" {
		return problem.New(c.name, words.Say("cmd.export.to"), words.Say("cmd.see-help-of", c.name))
	}
	return nil
}
