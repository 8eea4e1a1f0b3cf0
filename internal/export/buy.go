package export

import (
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// Buy is what to buy.
type Buy struct {
	PieceHead
	Missing  Number    `json:"missing_cost" doc:"of what is not in hand, in the piece's currency"`
	All      Number    `json:"all_cost" doc:"of all stock and fittings used"`
	Lines    []BuyLine `json:"lines" doc:"one for each thing"`
	Unpriced []string  `json:"unpriced" doc:"missing and without a price: the sums are too low by it"`
}

// BuyLine is one thing to buy or to have ready.
type BuyLine struct {
	What   string `json:"what" doc:"the shop's name of it"`
	Count  Number `json:"count" doc:"needed"`
	InHand int    `json:"in_hand" doc:"in the shop"`
	Unit   string `json:"unit" doc:"what is counted: sheet, stick, piece, pair"`
	Price  Number `json:"price" doc:"of one, in the piece's currency"`
	Cost   Number `json:"cost" doc:"of what is missing"`
	Size   string `json:"size" doc:"in words"`
	For    string `json:"for" doc:"what it is for"`
}

// BuyOf makes the buying list.
func BuyOf(p *plan.Plan) Buy {
	return Buy{pieceHead("buy", p), num(p.Cost), num(p.Stock), each(p.Buying, func(b work.BuyLine) BuyLine {
		return BuyLine{b.What, num(b.Count), b.InHand, b.Unit, num(b.Price), num(b.Cost), b.Size, b.For}
	}), list(p.Unpriced)}
}
