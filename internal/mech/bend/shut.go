package bend

// A kerf that is shut bends no more: the tips of its ribs bear on each other, and
// what lay as a hinge becomes a tie. Turned on by force, the strip turns about
// the tips, t − y_n from the tie's middle, so that each radian pulls the skin
// longer by that; a section of stiff tips and of a skin alone (derived; tips that
// crush give way sooner, and take less):
//
//	M = k·α_c + (ΣE·h·b/w)·(t − y_n)²·(α − α_c),  ε = y_n·α_c/w + (t − y_n)·(α − α_c)/w
//
// which is 12·((t − y_n)/h)² times as stiff as the open hinge of one layer. The
// skin is over its limit a tenth of a degree or so past shutting: nothing is
// brought round by force once its kerfs are shut.

// Shut returns the angle of the bend, rad, at which its kerfs are all shut, and
// whether that is before the angle that is asked for.
func (p Plan) Shut() (angle float64, early bool) {
	if !(p.ClosedAt > 0) || p.ClosedAt >= p.Alpha {
		return 0, false
	}
	return float64(p.Count) * p.ClosedAt, true
}

// ShutStiffness returns how stiff one hinge is once its kerf is shut, N·mm/rad;
// 0 where the moduli of the layers are not known, or the kerf never shuts.
func (p Plan) ShutStiffness() float64 {
	if !(p.ClosedAt > 0) || !(p.Spec.Kerf > 0) {
		return 0
	}
	ea := 0.0
	eachLeft(p.Spec.Layers, p.Spec.Skin, func(_, thick, e float64) { ea += e * thick })
	arm := p.Spec.Thick - p.NeutralY
	return ea * p.Spec.Width / p.Spec.Kerf * arm * arm
}

// PastShut returns the moment, N·mm, and the strain of the show face when each
// kerf is turned past shutting by the angle, rad.
func (p Plan) PastShut(turn float64) (moment, strain float64) {
	arm := p.Spec.Thick - p.NeutralY
	return p.Stiffness*p.ClosedAt + p.ShutStiffness()*turn, (p.NeutralY*p.ClosedAt + arm*turn) / p.Spec.Kerf
}
