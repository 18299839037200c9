// Package ratings holds swap effects and their lack of fit against the same
// model in R:
//
//	go test -tags floors -count=1 -v ./testdata/floors/ratings
package ratings
