package main

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/scenarios"
)

func TestTheCommandLine(t *testing.T) {
	name, seed, err := asked(nil)
	require.NoError(t, err)
	assert.Equal(t, scenarios.Default, name)
	assert.Nil(t, seed)
	name, seed, err = asked([]string{"--sealed", "1234", "far-south"})
	require.NoError(t, err)
	assert.Equal(t, "far-south", name)
	require.NotNil(t, seed)
	assert.Equal(t, uint64(1234), *seed)
	name, seed, err = asked([]string{"--sealed=0"})
	require.NoError(t, err)
	assert.Equal(t, scenarios.Default, name)
	assert.Zero(t, *seed)
	_, _, err = asked([]string{"-h"})
	assert.ErrorIs(t, err, flag.ErrHelp)
	for _, bad := range [][]string{{"--sealed", "-3"}, {"--sealed", "x"}, {"--seal", "3"}, {"a", "b"}} {
		_, _, err = asked(bad)
		assert.Error(t, err, "%v", bad)
	}
}
