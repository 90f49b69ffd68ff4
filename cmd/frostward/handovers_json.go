package main

import "frostward/risk"

// hardeningJSON is the hardening off of a raised planting; null for a sowing.
type hardeningJSON struct {
	Spot    string               `json:"spot"`
	From    string               `json:"from"`
	To      string               `json:"to"`
	SetBack shareJSON            `json:"set_back"` // on at least one night, were the plants left out on all
	BringIn nightsJSON           `json:"bring_in_nights"`
	Nights  []hardeningNightJSON `json:"nights"`
}

type hardeningNightJSON struct {
	Night string    `json:"night"` // the day it ends
	Limit *float64  `json:"limit_c"`
	Harm  shareJSON `json:"set_back"`
}

func (s *session) hardeningJSON(h risk.Hardening) *hardeningJSON {
	if len(h.Nights) == 0 {
		return nil
	}
	j := &hardeningJSON{Spot: s.HardensAt(), From: s.Calendar.Format(h.From), To: s.Calendar.Format(h.Out), SetBack: jsonOf(h.Any)}
	if h.Inside[0].Known {
		j.BringIn = nightsJSON{number(h.Inside[0].Value, 0), number(h.Inside[1].Value, 0)}
	}
	for _, n := range h.Nights {
		j.Nights = append(j.Nights, hardeningNightJSON{s.Calendar.Format(n.Day), number(n.Limit, 1), jsonOf(n.Harm)})
	}
	return j
}

// handoverJSON is the wait for the bed of a planting that follows another; null for the rest.
type handoverJSON struct {
	Follows     string     `json:"follows"`
	OverlapDays int        `json:"overlap_days"`
	InTime      shareJSON  `json:"bed_free_in_time"`
	Free        []pickJSON `json:"bed_free"`
	Picked      shareJSON  `json:"before_picked"` // the planting before lives and is picked
	Leaves      []pickJSON `json:"bed_free_when_picked"`
	Wait        *float64   `json:"wait_days_p90"`
	InFreeBed   shareJSON  `json:"succeeds_in_free_bed"`
}

func (s *session) handoverJSON(a risk.Assessment) *handoverJSON {
	h := a.Handover
	if h == nil {
		return nil
	}
	j := &handoverJSON{Follows: h.Before, OverlapDays: int(h.Overlap), InTime: jsonOf(h.InTime), Free: s.datesJSON(h.Free[:]), Picked: jsonOf(h.Picked), Leaves: s.datesJSON(h.Leaves[:]),
		InFreeBed: jsonOf(h.Alone.Succeeds)}
	if h.Wait.Known {
		j.Wait = number(h.Wait.Value, 0)
	}
	return j
}
