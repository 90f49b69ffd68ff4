package main

import (
	"github.com/spf13/cobra"

	"frostward/crops"
)

// completeCrop offers the catalogue's crops for a command's first argument and the crop's
// classes for its second.
func completeCrop(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return cropNames(), cobra.ShellCompDirectiveNoFileComp
	case 1:
		return crops.Builtin().Classes(args[0]), cobra.ShellCompDirectiveNoFileComp
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

func cropNames() []string {
	var names []string
	for _, c := range crops.Builtin().All() {
		if len(names) == 0 || names[len(names)-1] != c.Name {
			names = append(names, c.Name)
		}
	}
	return names
}
