// Command parewell is the program: its window, and the commands that do the
// same work without one.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
