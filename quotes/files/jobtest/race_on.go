//go:build race

package jobtest

const race = true
