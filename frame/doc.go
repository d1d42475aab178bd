// Package frame keeps vectors, points, rotations and loads apart by the frame
// that they are written in: the frame is a type parameter, so that a boat-frame
// force cannot be added to a track-frame one.
//
// In go numbers and the angles of an attitude; out come vectors in a stated
// frame. The package knows nothing of boats, water or wind; it only fixes the
// frames and their signs, and it alone builds rotations.
//
// Frames, both right-handed:
//
//   - [Boat]: x forward, y to port, z up; origin at the boat's datum.
//   - [Track]: origin on the undisturbed water surface under the datum; x along
//     the boat's velocity through the water, y to port of it, z up.
//
// A vector has no origin, a point has: only a [Pose] takes points across.
package frame
