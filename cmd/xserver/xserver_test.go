package xserver

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// server answers every program that introduces itself: 1 to one that shows its
// cookie, else the answer. It returns its display's name.
func server(t *testing.T, cookie string, answer []byte) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			go serve(c, cookie, answer)
		}
	}()
	return "127.0.0.1:" + strconv.Itoa(l.Addr().(*net.TCPAddr).Port-6000)
}

func serve(c net.Conn, right string, answer []byte) {
	defer c.Close()
	head := make([]byte, 12)
	if _, err := io.ReadFull(c, head); err != nil {
		return
	}
	name, data := int(binary.NativeEndian.Uint16(head[6:])), int(binary.NativeEndian.Uint16(head[8:]))
	rest := make([]byte, (name+3)/4*4+(data+3)/4*4)
	if _, err := io.ReadFull(c, rest); err != nil {
		return
	}
	shown := string(rest[(name+3)/4*4:][:data])
	if right != "" && shown == right && string(rest[:name]) == cookie {
		answer = []byte{1, 0, 11, 0, 0, 0, 0, 0}
	}
	if _, err := c.Write(answer); err == nil && len(answer) > 0 { // without an answer it hangs up
		_, _ = io.Copy(io.Discard, c)
	}
}

// refusal is the answer of a server that lets nobody in.
func refusal(reason string) []byte {
	return append([]byte{0, byte(len(reason)), 11, 0, 0, 0, 0, 0}, reason...)
}

// writeKeys makes a file of keys the one that is looked at.
func writeKeys(t *testing.T, all ...entry) {
	t.Helper()
	var b []byte
	for _, e := range all {
		b = binary.BigEndian.AppendUint16(b, e.family)
		for _, s := range []string{e.address, e.number, e.name, e.data} {
			b = append(binary.BigEndian.AppendUint16(b, uint16(len(s))), s...)
		}
	}
	file := filepath.Join(t.TempDir(), "keys")
	if err := os.WriteFile(file, b, 0o600); err != nil {
		t.Fatal(err)
	}
	t.Setenv("XAUTHORITY", file)
}

func TestGreet(t *testing.T) {
	writeKeys(t, entry{0, "\x7f\x00\x00\x01", "", key{cookie, "stale"}}, entry{0, "\x7f\x00\x00\x01", "", key{cookie, "sixteen bytes it"}})
	rows := []struct {
		name, display, refused string
		err                    error
		held                   bool // the connection is kept
	}{
		{name: "lets in", display: server(t, "sixteen bytes it", refusal("who?")), held: true},
		{name: "refuses", display: server(t, "another", refusal("Invalid\x1b key\n")), refused: "Invalid key"},
		{name: "asks further", display: server(t, "", []byte{2, 0, 0, 0, 0, 0, 0, 0})},
		{name: "hangs up", display: server(t, "", nil)},
		{name: "no number", display: "127.0.0.1:-1"},
		{name: "nobody there", display: "127.0.0.1:59000", err: ErrSilent},
		{name: "nobody on this machine", display: ":59000", err: ErrSilent},
		{name: "a name of another form", display: "wayland-0"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			c, err := Greet(r.display)
			var refused *Refused
			if errors.As(err, &refused) != (r.refused != "") || refused != nil && refused.Reason != r.refused || refused == nil && err != r.err {
				t.Fatalf("%v", err)
			}
			if _, held := c.(net.Conn); held != r.held {
				t.Errorf("%T is held", c)
			}
			if c != nil {
				c.Close()
			}
		})
	}
}

// On this machine a key counts that is for it or for any machine, and for the
// display or for any.
func TestKeysFor(t *testing.T) {
	writeKeys(t,
		entry{familyLocal, home(), "7", key{cookie, "mine"}},
		entry{familyLocal, "another-machine", "7", key{cookie, "not mine"}},
		entry{familyWild, "", "7", key{cookie, "anybody's"}},
		entry{familyLocal, home(), "8", key{cookie, "another display's"}},
		entry{0, "\x0a\x00\x00\x01", "", key{cookie, "over the net"}})
	rows := []struct {
		name, host string
		number     int
		want       string
	}{
		{"this machine", "", 7, "mine|anybody's"},
		{"another display", "", 9, ""},
		{"another machine", "10.0.0.1", 7, "mine|not mine|anybody's|over the net"},
	}
	for _, r := range rows {
		var got []string
		for _, k := range keysFor(r.host, r.number) {
			got = append(got, k.data)
		}
		if s := strings.Join(got, "|"); s != r.want {
			t.Errorf("%s: %q, want %q", r.name, s, r.want)
		}
	}
}

// A file of keys that is cut off anywhere gives those that are whole.
func TestEntriesOfABrokenFile(t *testing.T) {
	writeKeys(t, entry{familyWild, "", "", key{cookie, "one"}}, entry{familyWild, "", "", key{cookie, "two"}})
	whole, err := os.ReadFile(keyFile())
	if err != nil {
		t.Fatal(err)
	}
	for n := range len(whole) {
		if err := os.WriteFile(keyFile(), whole[:n], 0o600); err != nil {
			t.Fatal(err)
		}
		want := 0
		if n >= len(whole)/2 {
			want = 1
		}
		if got := len(entries(keyFile())); got != want {
			t.Errorf("%d bytes: %d keys, want %d", n, got, want)
		}
	}
}

// A real server that wants a key lets in who shows it and refuses everybody else.
func TestGreetARealServer(t *testing.T) {
	if _, err := exec.LookPath("Xvfb"); err != nil {
		t.Skip("Xvfb is not installed")
	}
	const right = "0123456789abcdef"
	writeKeys(t, entry{familyWild, "", "", key{cookie, right}})
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	// Without -noreset a server whose last guest left lets anybody in until it has
	// read its keys again.
	cmd := exec.Command("Xvfb", "-displayfd", "3", "-auth", keyFile(), "-nolisten", "tcp", "-noreset")
	cmd.ExtraFiles = []*os.File{write}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Signal(os.Interrupt); _ = cmd.Wait() })
	write.Close()
	_ = read.SetReadDeadline(time.Now().Add(30 * time.Second))
	number, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Fatalf("Xvfb gave no display: %v", err)
	}
	display := ":" + strings.TrimSpace(number)
	rows := []struct {
		name    string
		keys    []entry
		refused bool
	}{
		{"the right key", []entry{{familyLocal, home(), display[1:], key{cookie, right}}}, false},
		{"a wrong key", []entry{{familyLocal, home(), display[1:], key{cookie, "fedcba9876543210"}}}, true},
		{"no key", nil, true},
	}
	for _, r := range rows {
		writeKeys(t, r.keys...)
		c, err := Greet(display + ".0")
		var refused *Refused
		if errors.As(err, &refused) != r.refused || !r.refused && err != nil || r.refused && refused.Reason == "" {
			t.Errorf("%s: %v", r.name, err)
		}
		if c != nil {
			c.Close()
		}
	}
}
