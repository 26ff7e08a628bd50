package browser

import "syscall"

// ownGroup is nothing in WebAssembly, which starts no process: there this
// package is only looked over.
func ownGroup() *syscall.SysProcAttr { return nil }
