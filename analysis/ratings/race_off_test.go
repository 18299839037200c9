//go:build !race

package ratings

const racing = false
