package workbook

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"parewell/recipes"
)

// The test binary starts itself again as another program that works on the
// workbook, told apart by this variable: "role path seed".
const roleVariable = "PAREWELL_TEST_ROLE"

func TestMain(m *testing.M) {
	if role := strings.SplitN(os.Getenv(roleVariable), "|", 3); len(role) == 3 {
		play(role[0], role[1], role[2])
		return
	}
	os.Exit(m.Run())
}

// play is the other program.
func play(role, path, arg string) {
	o := testOptions()
	o.Patience = time.Minute
	n, err := strconv.ParseUint(arg, 10, 64)
	if err == nil {
		switch role {
		case "edit":
			err = editUntilKilled(path, o, n)
		case "add":
			err = addMany(path, o, n)
		case "look":
			err = look(path)
		default:
			if strings.HasPrefix(role, "copy ") {
				err = copyUntilKilled(role, path)
			}
		}
	}
	if err != nil {
		fmt.Println("fault:", err)
		os.Exit(1)
	}
}

// started is another program under way.
type started struct {
	*exec.Cmd
	lines *bufio.Scanner
}

func start(t *testing.T, role, path string, arg uint64) *started {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(exe, "-test.run=^$")
	c.Env = append(os.Environ(), fmt.Sprintf("%s=%s|%s|%d", roleVariable, role, path, arg))
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	c.Stderr = os.Stderr
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	return &started{c, bufio.NewScanner(out)}
}

// startAsNobody is another program that runs with the rights of nobody in particular,
// where this one is the superuser's; it has its binary from a folder all may read.
func startAsNobody(t *testing.T, role, path string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	var who *syscall.SysProcAttr
	if os.Getuid() == 0 {
		dir := t.TempDir()
		common := filepath.Join(dir, "program")
		if err := copyFile(exe, common); err != nil {
			t.Fatal(err)
		}
		for _, p := range []string{common, dir, filepath.Dir(dir)} {
			if err := os.Chmod(p, 0o755); err != nil {
				t.Fatal(err)
			}
		}
		exe, who = common, &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
	c := exec.Command(exe, "-test.run=^$")
	c.Dir = "/"
	c.SysProcAttr = who
	c.Env = append(os.Environ(), fmt.Sprintf("%s=%s|%s|0", roleVariable, role, path))
	return c
}

func digest(b *recipes.Book) string {
	h := sha256.New()
	for _, e := range b.Entities() {
		body, err := recipes.EncodeEntity(e)
		if err != nil {
			panic(err)
		}
		h.Write(body)
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// editUntilKilled makes edits, undoes and redoes for ever and says after each
// confirmed one which it was and what the Book then holds.
func editUntilKilled(path string, o Options, seed uint64) error {
	f, err := Open(path, o)
	if err != nil {
		return err
	}
	k := newCook(seed)
	for {
		var a Applied
		switch k.rnd.IntN(8) {
		case 0:
			a, err = f.Undo(ctx)
		case 1:
			a, err = f.Redo(ctx)
		default:
			_, verb := k.edit(f.Book())
			a, err = f.Apply(ctx, verb, recipes.ByCook)
		}
		if err != nil && !refused(err) {
			return err
		}
		if err == nil && a.Seq != 0 {
			fmt.Println("confirmed", f.Revision(), a.Seq, digest(f.Book()))
		}
	}
}

// addMany adds n recipes and counts each in a setting that others count in too.
func addMany(path string, o Options, n uint64) error {
	o.Random = newSeeded(n)
	f, err := Open(path, o)
	if err != nil {
		return err
	}
	defer f.Close()
	for i := range n {
		id := recipes.ID(fmt.Sprintf("p%d-%d", os.Getpid(), i))
		_, err := f.Apply(ctx, recipes.All(gratinLabel, id, addGratin(id), count), recipes.ByCook)
		if err != nil {
			return err
		}
	}
	fmt.Println("all in")
	return nil
}

var gratinLabel = recipes.Change{}.Label

// count adds one to a setting.
func count(b *recipes.Book) (recipes.Change, error) {
	n, _ := strconv.Atoi(b.Setting("count"))
	return recipes.Set("count", strconv.Itoa(n+1))(b)
}

// kills is how often the other program is killed: PAREWELL_KILLS, or 30.
func kills(t *testing.T) int {
	if s := os.Getenv("PAREWELL_KILLS"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil {
			t.Fatal("PAREWELL_KILLS:", err)
		}
		return n
	}
	if testing.Short() {
		return 5
	}
	return 30
}

// TestKillingTheProgramLosesNothingConfirmed kills a program in the middle of
// its edits at random moments: after each kill the file is sound, holds what
// was last confirmed, or that and the edit under way whole.
func TestKillingTheProgramLosesNothingConfirmed(t *testing.T) {
	f := mustCreate(t)
	f.Close()
	rnd := rand.New(rand.NewPCG(3, 3))
	confirmed, left, under := 0, 0, 0
	revision, seen := int64(0), map[int64]bool{}
	for i := range kills(t) {
		p := start(t, "edit", f.Path(), uint64(1000+i))
		hash := ""
		for range 1 + rnd.IntN(25) {
			if !p.lines.Scan() {
				break
			}
			hash = note(t, p.lines.Text(), &revision, seen)
			confirmed++
		}
		time.Sleep(time.Duration(rnd.IntN(4000)) * time.Microsecond)
		p.Process.Kill()     //nolint:errcheck // Wait tells
		for p.lines.Scan() { // what it had still confirmed
			hash = note(t, p.lines.Text(), &revision, seen)
			confirmed++
		}
		p.Wait() //nolint:errcheck // it was killed
		if _, err := os.Stat(f.Path() + "-journal"); err == nil {
			left++
		}
		g := mustOpen(t, f.Path())
		wantSound(t, g)
		switch extra := g.Revision() - revision; {
		case extra == 0 && hash != "" && digest(g.Book()) != hash:
			t.Fatalf("kill %d: the file is not what was confirmed", i)
		case extra == 1:
			under++
		case extra != 0:
			t.Fatalf("kill %d: confirmed revision %d, the file is at %d", i, revision, g.Revision())
		}
		wantEntries(t, g, seen)
		revision = g.Revision()
		g.Close()
	}
	t.Logf("%d edits confirmed; %d kills left a journal, %d fell between commit and answer", confirmed, left, under)
	if confirmed == 0 {
		t.Error("nothing was ever confirmed")
	}
}

// note reads a line of the killed program's and returns its digest.
func note(t *testing.T, line string, revision *int64, seen map[int64]bool) string {
	t.Helper()
	var seq int64
	var hash string
	if _, err := fmt.Sscanf(line, "confirmed %d %d %s", revision, &seq, &hash); err != nil {
		t.Fatalf("the other program said %q", line)
	}
	seen[seq] = true
	return hash
}

func wantEntries(t *testing.T, f *File, seen map[int64]bool) {
	t.Helper()
	h, err := f.History(ctx, "", 0)
	if err != nil {
		t.Fatal(err)
	}
	have := map[int64]bool{}
	for _, e := range h {
		have[e.Seq] = true
	}
	for seq := range seen {
		if !have[seq] {
			t.Fatalf("confirmed edit %d is not in the notebook", seq)
		}
	}
}

// TestTwoProgramsShareAWorkbook has two programs edit the same file at once.
func TestTwoProgramsShareAWorkbook(t *testing.T) {
	f := mustCreate(t)
	const each = 60
	a, b := start(t, "add", f.Path(), each), start(t, "add", f.Path(), each)
	mine := mustApply(t, f, recipes.Set("units", "metric"))
	for _, p := range []*started{a, b} {
		said := ""
		for p.lines.Scan() {
			said += p.lines.Text()
		}
		if err := p.Wait(); err != nil || said != "all in" {
			t.Fatalf("%v: %s", err, said)
		}
	}
	got := mustApply(t, f, recipes.Set("units", "us"))
	if len(mine.Arrived)+len(got.Arrived) != 2*each {
		t.Errorf("%d changes arrived, want %d", len(mine.Arrived)+len(got.Arrived), 2*each)
	}
	if n := len(f.Book().Recipes()); n != 2*each || f.Book().Setting("count") != strconv.Itoa(2*each) || f.Book().Setting("units") != "us" {
		t.Errorf("%d recipes, counted %s, units %s", n, f.Book().Setting("count"), f.Book().Setting("units"))
	}
	if onDisk(t, f.Path()) != content(t, f.Book()) {
		t.Error("Book and file differ")
	}
	wantSound(t, f)
}

// look opens a workbook as someone who may not write to it and tells how.
func look(path string) error {
	before, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return err
	}
	f, err := Open(path, Options{})
	if err != nil {
		return err
	}
	defer f.Close()
	fmt.Println("read-only:", f.ReadOnlyWhy())
	fmt.Println("recipes:", len(f.Book().Recipes()))
	_, err = f.Apply(ctx, recipes.Set("units", "us"), recipes.ByCook)
	fmt.Println("edit:", err)
	after, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return err
	}
	fmt.Println("files:", len(before), len(after))
	return nil
}
