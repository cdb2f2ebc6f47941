// Package policy holds the project's own rules as tests: which package may import which,
// that no unit-typed value is multiplied outside internal/measure, that no fused
// multiply-add can show in a figure, that every package says what it may not do, and
// that no borrowed word gets in. It has no code of its own; nothing imports it. The room
// policy/mutation behind it is a command that checks the tests themselves.
package policy
