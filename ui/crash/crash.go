// Package crash keeps on this machine what a program that broke off has to say of
// it: the version, where in the code it was, and the keys of what was done last.
// No recipe and nobody's name goes into a report, and nothing leaves the machine.
//
// While the program runs a file of its own takes the keys; should the program
// break off, in whichever goroutine, Go's runtime writes its stacks to the end of
// that file. The next start makes a report of it (Collect), in which only what
// cannot quote the workbook is kept, and removes it.
package crash

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"time"
)

// About is what a report says of the program.
type About struct {
	Name, Version string
	Build         int
}

// folderName is the folder of reports within the state folder.
const folderName = "crash"

// Names of what is in the folder.
const (
	runningPattern = "running-*.txt"
	reportPattern  = "20*.txt"
	stamp          = "20060102T150405Z"
)

// How many keys a report has, and after how many the running file is begun anew.
const (
	keysKept  = 20
	keysFiled = 500
)

// keyForm is the form of a label's key: no text a person wrote has it and comes
// into question here.
var keyForm = regexp.MustCompile(`^[a-z]+(\.[a-z0-9-]+)+$`)

// Log is the running program's file.
type Log struct {
	mu    sync.Mutex
	file  *os.File
	head  string
	keys  []string // the last ones
	filed int      // how many stand in the file
}

// Start begins the file of this run in the state folder and has the runtime write
// there when the program breaks off. Call Collect before it.
func Start(state string, about About, now time.Time) (*Log, error) {
	dir := filepath.Join(state, folderName)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	name := filepath.Join(dir, strings.Replace(runningPattern, "*", fmt.Sprintf("%s-%d", now.UTC().Format(stamp), os.Getpid()), 1))
	f, err := os.OpenFile(name, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return nil, err
	}
	l := &Log{file: f, head: fmt.Sprintf("%s%s %s (build %d), %s/%s, %s\n", headMark,
		about.Name, about.Version, about.Build, runtime.GOOS, runtime.GOARCH, runtime.Version())}
	if _, err = f.WriteString(l.head); err == nil {
		err = debug.SetCrashOutput(f, debug.CrashOptions{})
	}
	if err != nil {
		f.Close()
		os.Remove(name)
		return nil, err
	}
	return l, nil
}

// Did notes the key of what was done, without what it was done to. A key that
// does not look like one is not noted. A nil Log notes nothing.
func (l *Log) Did(key string) {
	if l == nil || !keyForm.MatchString(key) {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.file == nil {
		return
	}
	l.keys = append(l.keys, key)
	if len(l.keys) > keysKept {
		l.keys = l.keys[1:]
	}
	text := keyMark + key + "\n"
	if l.filed++; l.filed > keysFiled {
		if l.file.Truncate(0) != nil {
			return
		}
		l.filed = len(l.keys)
		text = l.head
		for _, k := range l.keys {
			text += keyMark + k + "\n"
		}
	}
	l.file.WriteString(text) //nolint:errcheck // a report that lacks a key is better than a program that stops for it
}

// End says that the program ended as it should: its file goes. A nil Log has none.
func (l *Log) End() {
	if l == nil {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.file == nil {
		return
	}
	debug.SetCrashOutput(nil, debug.CrashOptions{}) //nolint:errcheck // the file it would write to goes
	l.file.Close()                                  //nolint:errcheck // likewise
	os.Remove(l.file.Name())
	l.file = nil
}
