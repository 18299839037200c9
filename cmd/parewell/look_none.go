//go:build !nowindow && !look

package main

// startLook does nothing in the program that ships.
func startLook() {}
