//go:build !race

package sensory

const racing = false
