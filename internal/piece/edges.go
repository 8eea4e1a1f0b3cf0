package piece

// EdgeRole is the word by which a piece file speaks of a part's edges: its role,
// `shell` for a strip, `drawer` for what a box is made of.
func (q *Part) EdgeRole() string {
	switch q.Role {
	case Strip:
		return "shell"
	case LegRail:
		return "leg"
	case DrawerSide, DrawerEnd, DrawerFloor:
		return "drawer"
	}
	return string(q.Role)
}
