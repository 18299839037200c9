package desk

import (
	"encoding/json"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"time"
)

// Prefs are what the program remembers of its user between starts. The zero
// Prefs are the usual ones.
type Prefs struct {
	Theme  string   `json:"theme,omitempty"`  // "light", "dark"; "": the desktop's
	Text   float64  `json:"text,omitempty"`   // size of text against the usual; 0: 1
	Width  float64  `json:"width,omitempty"`  // of the window; 0: the usual
	Height float64  `json:"height,omitempty"` // of the window; 0: the usual
	Spot   Spot     `json:"spot,omitzero"`    // where the window stood
	Recent []Recent `json:"recent,omitempty"` // newest first

	Language string `json:"language,omitempty"` // of sentences and numbers, "fr"; "": English
	Decimal  string `json:"decimal,omitempty"`  // of numbers, "," or "."; "": as the language has it

	Folder  string      `json:"folder,omitempty"` // that files were saved to last
	Forms   []string    `json:"forms,omitempty"`  // of pages, as they were saved last
	Figures FigurePrefs `json:"figures,omitzero"`
}

// FigurePrefs are how figures were saved last. The zero FigurePrefs are the usual
// ones.
type FigurePrefs struct {
	Wide   string   `json:"wide,omitempty"`   // as it was typed; "": the usual
	Inches bool     `json:"inches,omitempty"` // Wide is in inches, else in millimetres
	DPI    int      `json:"dpi,omitempty"`    // 0: the usual
	Forms  []string `json:"forms,omitempty"`  // by their endings; none: the usual
	Proof  bool     `json:"proof,omitempty"`
}

// Spot is where a window stood: the corner of what is in it, in pixels of the
// screen. Of the zero Spot nothing is known.
type Spot struct {
	Known   bool `json:"known,omitempty"`
	X       int  `json:"x,omitempty"`
	Y       int  `json:"y,omitempty"`
	Filling bool `json:"filling,omitempty"` // it filled the screen; X and Y, when known, are from before
}

// Recent is a workbook opened before.
type Recent struct {
	Path   string    `json:"path"`
	Opened time.Time `json:"opened"`
}

// recents is how many workbooks are remembered.
const recents = 10

// stateName is the state file's name in its folder.
const stateName = "state.json"

// prefsFile is the Prefs and where they are kept.
type prefsFile struct {
	path  string
	mu    sync.Mutex
	prefs Prefs
}

// readPrefs reads the state file. It never fails: what cannot be read is
// forgotten, because it can all be set again.
func readPrefs(dir string) *prefsFile {
	p := &prefsFile{path: filepath.Join(dir, stateName)}
	p.prefs, _ = readState(p.path)
	return p
}

func readState(path string) (Prefs, error) {
	var prefs Prefs
	b, err := os.ReadFile(path)
	if err != nil {
		return Prefs{}, err
	}
	if err := json.Unmarshal(b, &prefs); err != nil {
		return Prefs{}, err
	}
	return prefs, nil
}

// Prefs returns what is remembered.
func (d *Desk) Prefs() Prefs {
	d.prefs.mu.Lock()
	defer d.prefs.mu.Unlock()
	p := d.prefs.prefs
	p.Recent = slices.Clone(p.Recent)
	return p
}

// SetPrefs has set change the Prefs at once and keeps them on disk in the
// queue's turn. A disk that does not take them costs nothing but the memory.
func (d *Desk) SetPrefs(set func(*Prefs)) {
	d.prefs.alter(set)
	d.queue.add(job{run: func() {
		d.prefs.write(set) //nolint:errcheck // see above
	}})
}

// ForgetRecent takes a workbook off the recent ones.
func (d *Desk) ForgetRecent(path string) {
	d.SetPrefs(func(p *Prefs) {
		p.Recent = slices.DeleteFunc(slices.Clone(p.Recent), func(r Recent) bool { return r.Path == path })
	})
}

func (p *prefsFile) alter(set func(*Prefs)) {
	p.mu.Lock()
	defer p.mu.Unlock()
	set(&p.prefs)
}

// opened puts a workbook at the head of the recent ones, on the queue.
func (p *prefsFile) opened(path string, at time.Time) {
	set := func(prefs *Prefs) { prefs.Recent = ahead(prefs.Recent, Recent{full(path), at}) }
	p.alter(set)
	p.write(set) //nolint:errcheck // being forgotten is no reason to fail an opening
}

func ahead(list []Recent, r Recent) []Recent {
	out := []Recent{r}
	for _, x := range list {
		if x.Path != r.Path && len(out) < recents {
			out = append(out, x)
		}
	}
	return out
}

// write makes the same change to the newest state on disk, where another window
// may have written meanwhile, and replaces the file whole.
func (p *prefsFile) write(set func(*Prefs)) error {
	prefs, err := readState(p.path)
	if err != nil {
		p.mu.Lock()
		prefs = p.prefs
		p.mu.Unlock()
	} else {
		set(&prefs)
	}
	b, err := json.MarshalIndent(prefs, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(p.path), 0o700); err != nil {
		return err
	}
	return replace(p.path, b)
}

// replace writes a file so that a reader sees the old or the new, never half.
func replace(path string, b []byte) (err error) {
	t, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return err
	}
	defer os.Remove(t.Name())
	if _, err = t.Write(b); err == nil {
		err = t.Sync()
	}
	if e := t.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	return os.Rename(t.Name(), path)
}

// stateDir is where this user's programs keep what they remember (XDG Base
// Directory Specification 0.8; elsewhere the system's place for settings).
func stateDir() string {
	const name = "parewell"
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, name)
	}
	if home, err := os.UserHomeDir(); err == nil && runtime.GOOS != "windows" && runtime.GOOS != "darwin" {
		return filepath.Join(home, ".local", "state", name)
	}
	if dir, err := os.UserConfigDir(); err == nil {
		return filepath.Join(dir, name)
	}
	return filepath.Join(os.TempDir(), name)
}

// StateDir returns the folder of the state file: backups have theirs below it.
func (d *Desk) StateDir() string { return d.opts.StateDir }
