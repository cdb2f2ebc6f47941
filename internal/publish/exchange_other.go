//go:build !linux && !darwin

package publish

func exchange(a, b string) error { return errNoExchange }
