package tables

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// mark is the byte-order mark some programs put before UTF-8.
const mark = "\ufeff"

// longest is how long a line may be; no table has a longer one.
const longest = 1 << 20

// lines hands out the lines of a file as UTF-8, numbered from 1.
type lines struct {
	w     *work
	in    *bufio.Reader
	at    int      // number of the line given last
	ahead []string // lines read and given back, the next one first
	long  bool     // the line given last was too long and is cut
	err   error    // what ended the reading, nil at the end of the file
}

func newLines(w *work, in io.Reader) *lines {
	return &lines{w: w, in: bufio.NewReaderSize(in, 256<<10)}
}

// next gives a line without its end; false at the end of the file.
func (l *lines) next() (string, bool) {
	l.long = false
	if len(l.ahead) > 0 {
		s := l.ahead[0]
		l.ahead = l.ahead[1:]
		l.at++
		return s, true
	}
	b, err := l.slice()
	if len(b) == 0 && err != nil {
		return "", false
	}
	l.at++
	if l.at == 1 {
		b = bytes.TrimPrefix(b, []byte(mark))
	}
	if l.w.step(len(b)); l.w.stopped != nil {
		l.err = l.w.stopped
		return "", false
	}
	return text(bytes.TrimRight(b, "\r\n\x1a")), true // 1A ends a file of old
}

// slice reads up to the end of the line; what goes beyond longest is dropped.
func (l *lines) slice() ([]byte, error) {
	b, err := l.in.ReadSlice('\n')
	if err == nil {
		return b, nil
	}
	whole := append([]byte(nil), b...)
	for errors.Is(err, bufio.ErrBufferFull) {
		b, err = l.in.ReadSlice('\n')
		if len(whole) <= longest {
			whole = append(whole, b...)
		}
	}
	l.long = len(whole) > longest
	if err != nil && !errors.Is(err, io.EOF) {
		l.err = err
		return nil, err
	}
	return whole, err
}

// back gives lines back that were read ahead, in their order.
func (l *lines) back(read []string) {
	l.ahead = append(append([]string(nil), read...), l.ahead...)
	l.at -= len(read)
}

// windows are the characters that Windows-1252 has where Latin-1 has none.
const windows = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ"

var windowsRunes = []rune(windows)

// text makes a string of a line: UTF-8 as it is, anything else as Windows-1252,
// of which Latin-1 is a part.
func text(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	var s strings.Builder
	s.Grow(len(b) + 8)
	for _, c := range b {
		if c >= 0x80 && c < 0xa0 {
			s.WriteRune(windowsRunes[c-0x80])
		} else {
			s.WriteRune(rune(c))
		}
	}
	return s.String()
}

// isText refuses what the first bytes show to be no table: UTF-16 and files
// that are no text at all.
func isText(name string, start []byte) error {
	switch {
	case bytes.HasPrefix(start, []byte{0xff, 0xfe}), bytes.HasPrefix(start, []byte{0xfe, 0xff}):
		return fault(nil, name, "tables.utf16")
	case bytes.IndexByte(start, 0) >= 0:
		return fault(nil, name, "tables.binary")
	case len(start) == 0:
		return fault(nil, name, "tables.empty")
	}
	return nil
}
