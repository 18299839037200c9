package main

import (
	"bytes"
	"database/sql"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"parewell": main})
}

// TestScripts runs the program as people do: one script a command or a kind of
// bad input, in testdata/scripts.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "scripts"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       os.Getenv("PAREWELL_GOLDEN") == "1", // make golden
		Condition:           condition,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exit":     cmdExit,
			"shape":    cmdShape,
			"newer":    cmdNewer,
			"spoil":    cmdSpoil,
			"relative": cmdRelative,
			"oneline":  cmdOneLine,
			"sit":      cmdSit,
			"typed":    cmdTyped,
			"fill":     cmdFill,
			"code":     cmdCode,
		},
	})
}

// condition knows [window] (this build has one) and [root] (nothing is
// forbidden to it).
func condition(name string) (bool, error) {
	switch name {
	case "window":
		info, _ := debug.ReadBuildInfo()
		for _, d := range info.Deps {
			if d.Path == "github.com/go-gl/glfw/v3.3/glfw" {
				return true, nil
			}
		}
		return false, nil
	case "root":
		return os.Geteuid() == 0, nil
	}
	return false, fmt.Errorf("no condition %q", name)
}

// cmdExit runs the program and holds it to an exit code: exit 2 parewell ...
func cmdExit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exit CODE COMMAND...")
	}
	err := ts.Exec(args[1], args[2:]...)
	code := "0"
	if err != nil {
		code = strings.TrimPrefix(err.Error(), "exit status ")
	}
	if code != args[0] {
		ts.Fatalf("exit code %s, want %s", code, args[0])
	}
}

// cmdOneLine holds standard error to a single line, and standard output to none.
func cmdOneLine(ts *testscript.TestScript, _ bool, _ []string) {
	if said := ts.ReadFile("stderr"); strings.Count(said, "\n") != 1 || !strings.HasPrefix(said, "parewell: ") {
		ts.Fatalf("standard error is not one line of ours: %q", said)
	}
	if said := ts.ReadFile("stdout"); said != "" {
		ts.Fatalf("standard output beside an error: %q", said)
	}
}

// cmdShape prints the keys and types of a JSON file, so that a golden file
// holds its form without its figures: shape stdout shape.txt.
func cmdShape(ts *testscript.TestScript, _ bool, args []string) {
	var v any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &v))
	lines := map[string]bool{}
	shapeOf(v, "", lines)
	out := strings.Join(slices.Sorted(maps.Keys(lines)), "\n") + "\n"
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(out), 0o600))
}

func shapeOf(v any, at string, lines map[string]bool) {
	switch x := v.(type) {
	case map[string]any:
		for k, e := range x {
			shapeOf(e, at+"."+k, lines)
		}
	case []any:
		for _, e := range x {
			shapeOf(e, at+"[]", lines)
		}
	default:
		lines[fmt.Sprintf("%s %T", strings.TrimPrefix(at, "."), v)] = true
	}
}

// cmdNewer makes a workbook one that a much newer program wrote.
func cmdNewer(ts *testscript.TestScript, _ bool, args []string) {
	db, err := sql.Open("sqlite3", ts.MkAbs(args[0])) // the workbook's own driver
	ts.Check(err)
	defer db.Close()
	_, err = db.Exec("UPDATE meta SET format = 99, min_reader = 99")
	ts.Check(err)
}

// cmdSpoil writes nonsense over the middle of a workbook, as a bad disk does:
// the header stays.
func cmdSpoil(ts *testscript.TestScript, _ bool, args []string) {
	name := ts.MkAbs(args[0])
	b, err := os.ReadFile(name)
	ts.Check(err)
	page := int(binary.BigEndian.Uint16(b[16:18])) // sqlite.org/fileformat2.html, 1.3.2
	for i := page; i < len(b); i += page {
		copy(b[i:], bytes.Repeat([]byte{0xa5}, min(200, len(b)-i)))
	}
	ts.Check(os.WriteFile(name, b, 0o600))
}

// cmdRelative replaces the script's own folder in a file by nothing, so that
// what holds paths can be compared.
func cmdRelative(ts *testscript.TestScript, _ bool, args []string) {
	text := strings.ReplaceAll(ts.ReadFile(args[0]), ts.MkAbs(".")+string(filepath.Separator), "")
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o600))
}
