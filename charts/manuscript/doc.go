// Package manuscript lays pages out for print: what is cooked from, written on
// and sent to the publisher. A Document is a plain value, pages of placed text
// and rules in points, so that a test can read it; WritePDF turns it into a file
// whose text stays text, with its fonts inside.
package manuscript
