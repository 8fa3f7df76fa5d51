// Package drafting is what the flight editor knows: turning points that are moved,
// legs, weather, settings, actions and faults, as changes of a flight's file, and the
// rows in which they are shown and typed. It knows no toolkit.
//
// # The route
//
// A turning point is the end of a leg as the navigator plans it before the flight
// (atlas.Planned: rhumb lines, still air plus the wind set at the start, turns without
// time). When one is moved,
//
//   - the leg that ends there goes to = "PLACE" if it is let go within reach of a place
//     of the flight's waters;
//   - else it keeps what steers it. A leg by true, magnetic or compass heading stays
//     one: whoever wrote it means the nose to be held, and only the figure changes, to
//     that which leads there in the wind set. A leg by track, or one that led to a
//     place, is written track_true_deg. It keeps its kind of end too: distance_nm in
//     air miles if it has that, else duration.
//   - The next leg is aimed anew from there at the turning point that it led to, unless
//     it leads to a place anyway: the other turning points stay where they are, to the
//     rounding of the file, and only the times of those that follow change.
//
// Directions are written to a tenth of a degree, durations to a second, distances to a
// tenth of a mile. What that leaves is at most rounding of the leg: half a tenth of a
// degree across it, half a second or half a tenth of a mile along it.
package drafting
