// Package edit changes a flight's file without rewriting it: what a person wrote,
// with its comments, spacing and order, stays as it is but for the lines concerned.
//
// It stands beside the loader, not in the window, because it is about the file
// format alone: it knows keys, tables and lines, and asks package scenarios whether
// the result can be flown. What a turning point is belongs to those who use it.
//
// # Paths
//
// A value or table is named as the loader names it in its errors, entries counted
// from 1: "title", "aircraft.position", "leg[2].duration", "air.wind[1]",
// "crew[3].set_wind.speed_kt".
//
// # What a change touches
//
//   - Set on a key that is there replaces the characters of its value; on one that
//     is not, it adds a line behind the last key of the table (and the table, at the
//     end of the file, if there is none).
//   - Remove takes a key with its lines, or a table with the comment lines that stand
//     directly above it. A comment with an empty line after it belongs to the file.
//   - Insert adds one [[table]], parted from its neighbours as they are.
//   - Move carries a [[table]] with its own comments to another place among its like;
//     what stands between the tables stays where it is.
//
// # What is allowed
//
// A draft that can be flown stays one: a change after which the strict loader would
// refuse the file is refused in the loader's words, and nothing is changed. A draft
// that cannot be flown yet takes any change after which it is still TOML.
package edit
