// Package panel looks at a panel, taster by taster: how the scale is used, how
// far each agrees with the rest, how well scores repeat when a sample comes
// again, and whether they tell the samples apart (the indicators of ISO
// 11132:2021, which is made for trained panels). It is pure: no files, no clock,
// no randomness; NaN means "cannot be reckoned".
//
// Of people asked what they like nothing here is a fault: tastes differ, and no
// figure of this package is a reason to set anyone aside.
package panel
