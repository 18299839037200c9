package xserver

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"strconv"
)

// key is what a server may know a program by; the zero key is none.
type key struct{ name, data string }

// cookie is the protocol of keys that are simply shown. Others are reckoned with
// the server, and are left to the window library.
const cookie = "MIT-MAGIC-COOKIE-1"

// Families of addresses in a file of keys (Xau(3)).
const (
	familyLocal = 256
	familyWild  = 65535
)

// keysFor returns the keys to try at a display, at least the zero one. On this
// machine a key goes by the machine's name; elsewhere names have too many forms,
// and every key of that display number is tried.
func keysFor(host string, number int) []key {
	var out []key
	for _, e := range entries(keyFile()) {
		if e.number != "" && e.number != strconv.Itoa(number) {
			continue
		}
		if host == "" && e.family != familyWild && (e.family != familyLocal || e.address != home()) {
			continue
		}
		out = append(out, e.key)
	}
	if out == nil {
		out = []key{{}}
	}
	return out
}

// keyFile is where the keys are: XAUTHORITY, else .Xauthority at home (Xau(3)).
func keyFile() string {
	if name := os.Getenv("XAUTHORITY"); name != "" {
		return name
	}
	return filepath.Join(os.Getenv("HOME"), ".Xauthority")
}

// entry is one key in a file and what it is for.
type entry struct {
	family          uint16
	address, number string
	key
}

// entries reads a file of keys as far as it is whole: none from a file that is not
// there, as the X libraries have it.
func entries(file string) []entry {
	b, err := os.ReadFile(file)
	if err != nil {
		return nil
	}
	var out []entry
	for {
		e, rest, ok := cutEntry(b)
		if !ok {
			return out
		}
		out, b = append(out, e), rest
	}
}

// cutEntry takes one entry off: a family and four counted texts, most significant
// byte first.
func cutEntry(b []byte) (e entry, rest []byte, ok bool) {
	if len(b) < 2 {
		return entry{}, nil, false
	}
	e.family, b = binary.BigEndian.Uint16(b), b[2:]
	for _, to := range []*string{&e.address, &e.number, &e.name, &e.data} {
		if len(b) < 2 {
			return entry{}, nil, false
		}
		n := int(binary.BigEndian.Uint16(b)) + 2
		if len(b) < n {
			return entry{}, nil, false
		}
		*to, b = string(b[2:n]), b[n:]
	}
	return e, b, true
}
