package main

// Name, identity and version of the program; FyneApp.toml says the same to
// packagers, and a test holds the two together.
const (
	programName = "Parewell"
	programID   = "org.parewell.Parewell"
	version     = "0.1.0"
	build       = 1
)
