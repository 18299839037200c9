// Package parts holds the theme and the shared widgets of the window. It takes
// strings already worded and numbers already formatted, and knows nothing of
// recipes. Everything here is used on the window's goroutine only.
package parts
