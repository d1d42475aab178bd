//go:build unix

package web

import "syscall"

func pipe(at string) error { return syscall.Mkfifo(at, 0o644) }
