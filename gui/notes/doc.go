// Package notes is the lecturer's own window: what to say, what the audience is asked and
// the right answer, what comes next, and how much of the hour is left. It stands on the
// screen that the lecturer sees; the other one has the picture alone.
package notes
