// Package justright reads just-about-right answers: who found too little or too
// much of something, and how much less they liked the dish than those who found
// it just right (penalty analysis; ASTM MNL63, Rothman & Parker 2009). For two
// versions tasted by the same people it says whether the answers moved.
//
// A penalty goes together with an answer; it does not prove that changing the
// dish would help, and every explanation says so. It is pure: no files, no
// clock, no randomness. NaN always means "cannot be reckoned".
package justright
