// Package xserver asks an X server whether it would let the program in, so that
// the answer can be told in a sentence: the window library only breaks off.
package xserver

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"strconv"
	"strings"
	"time"
)

// ErrSilent says that nothing listens at the display's name.
var ErrSilent = errors.New("the display does not answer")

// Refused is the server's answer to a program it does not let in.
type Refused struct{ Reason string } // its own words, on one line

func (r *Refused) Error() string { return "the display refuses: " + r.Reason }

// patience is how long a server may take to answer. One that takes longer is left
// to the window library, which waits.
const patience = 2 * time.Second

// Greet introduces the program to the server of a display, HOST:N.SCREEN, without
// host on this machine's sockets (X(7), "Display names"). It returns ErrSilent, a
// *Refused, or what keeps the connection: some servers start anew when the last
// one ends, so it is to be closed when the window is there. A display whose name
// or key has a form unknown here is left to the window library.
func Greet(display string) (io.Closer, error) {
	host, number, ok := split(display)
	if !ok {
		return unasked{}, nil
	}
	var refused error
	for _, k := range keysFor(host, number) {
		c, err := dial(host, number)
		if err != nil {
			return nil, ErrSilent
		}
		err = introduce(c, k)
		if err == nil {
			return c, nil
		}
		c.Close() //nolint:errcheck // nothing was asked for but an answer
		if !errors.As(err, new(*Refused)) {
			return unasked{}, nil
		}
		refused = err
	}
	return nil, refused
}

// unasked stands for a server nobody talked to.
type unasked struct{}

func (unasked) Close() error { return nil }

// split takes a display's name apart; ok is false for a form not known here.
func split(display string) (host string, number int, ok bool) {
	host, rest, ok := strings.Cut(display, ":")
	if !ok {
		return "", 0, false
	}
	rest, _, _ = strings.Cut(rest, ".")
	number, err := strconv.Atoi(rest)
	if host == "unix" {
		host = ""
	}
	return host, number, err == nil && number >= 0
}

// dial connects to this machine's sockets of a display, or to a host's.
func dial(host string, number int) (net.Conn, error) {
	if host != "" {
		return net.DialTimeout("tcp", net.JoinHostPort(host, strconv.Itoa(6000+number)), patience)
	}
	socket := "/tmp/.X11-unix/X" + strconv.Itoa(number)
	c, err := net.DialTimeout("unix", "@"+socket, patience)
	if err != nil {
		c, err = net.DialTimeout("unix", socket, patience)
	}
	return c, err
}

// introduce sends the opening of a connection with a key and reads the head of the
// answer (X Window System Protocol, X11 release 7.7, chapter 8).
func introduce(c net.Conn, k key) error {
	if err := c.SetDeadline(time.Now().Add(patience)); err != nil {
		return err
	}
	order := byte('B')
	if binary.NativeEndian.Uint16([]byte{1, 0}) == 1 {
		order = 'l'
	}
	if k.name != "" && k.name != cookie {
		return fmt.Errorf("a key of the kind %s", k.name)
	}
	out := []byte{order, 0}
	for _, n := range []int{11, 0, len(k.name), len(k.data), 0} { // version 11.0, lengths, unused
		out = binary.NativeEndian.AppendUint16(out, uint16(n))
	}
	if _, err := c.Write(padded(padded(out, k.name), k.data)); err != nil {
		return err
	}
	var head [8]byte
	if _, err := io.ReadFull(c, head[:]); err != nil {
		return err
	}
	switch head[0] {
	case 0: // failed
		reason := make([]byte, head[1])
		if _, err := io.ReadFull(c, reason); err != nil {
			return err
		}
		return &Refused{oneLine(string(reason))}
	case 1: // success
		return nil
	}
	return fmt.Errorf("the display answers %d", head[0]) // it wants to be asked further
}

// padded appends text in whole fours of bytes.
func padded(out []byte, text string) []byte {
	out = append(out, text...)
	return append(out, make([]byte, (4-len(text)%4)%4)...)
}

// oneLine is a foreign text without line ends and other characters that steer a
// terminal.
func oneLine(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r <= ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 }), " ")
}

// home is this machine's name, by which its own keys go.
func home() string {
	name, _ := os.Hostname() // "" matches no key
	return name
}
