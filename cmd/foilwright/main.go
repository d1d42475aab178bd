// Command foilwright compares foiling sailing yachts: see package cli.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"foilwright/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := cli.Run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}
