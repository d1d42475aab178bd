// Package section knows two-dimensional sections: their shape, their lift by
// thin-aerofoil theory and by a panel method, their profile drag, their
// pressure peak and their largest usable lift, with or without a plain flap; the
// moment on its hinge; and where the boundary layer turns turbulent.
//
// In goes the name of a NACA section, or a file of coordinates, perhaps with a
// drag table of its user's, and then lift coefficient, Reynolds number, laminar
// share and flap; out come coefficients on the chord. The package also keeps the
// friction lines and the drag of junctions and of struts that pierce the surface,
// since they are laws of sections and plates and of nothing else. It refuses to
// know span, sweep, depth, the free surface, speed and units (but for degrees in
// a drag table): those are the foil's.
//
// Shapes have unit chord, x from the leading edge aft, y towards the upper side,
// which is the suction side at positive lift. Angles of attack and flap angles
// are positive where they add lift: leading edge towards the upper side,
// trailing edge towards the lower side. Pitching moments are positive when they
// raise the leading edge towards the upper side, hinge moments when they push
// the flap's trailing edge towards the lower one.
package section
