package bot

// seasonActions names what the buttons around a season do, beside those under a
// proposal.
func seasonActions() map[string]action {
	return map[string]action{
		"plan.withdraw":   {run: withdrawPressed},
		"plan.approve":    {run: approvePressed},
		"plan.refuse":     {run: refusePressed, again: true},
		"plan.reason":     {run: reasonPressed},
		"plan.approvals":  {run: approvalsPressed, again: true},
		"season.layout":   {run: layOutPressed},
		"season.waiting":  {run: waitingPressed, again: true},
		"season.split":    {run: splitPressed},
		"season.move":     {run: movePressed},
		"away.back":       {run: backPressed},
		"away.forget":     {run: forgetAwayPressed},
		"lift.back":       {run: liftBackPressed},
		"silence.trained": {run: trainedPressed, again: true},
		"silence.away":    {run: wasAwayPressed, again: true},
		"silence.quiet":   {run: quietPressed, again: true},
		"silence.was":     {run: wasPressed},
		"note.show":       {run: notesPressed, again: true},
		"note.undo":       {run: undoPressed},
	}
}
