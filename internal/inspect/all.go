package inspect

// All are the rules, one line each. A rule that is not here does not exist.
//
// Considered and left out:
//   - sum of axle ratings under GVWR by itself: NHTSA says it of trucks, not of
//     trailers, whose tongue the truck carries (aiam0613 against nht76-320).
//   - a 95% tolerance on tires and axles: NHTSA denied it (77-3.29).
//   - chain working load limit against GVWR: the breaking force is the measure.
var All = []*Rule{
	// reading
	fileUnreadable,
	unknownKey,
	keyTwice,
	valueUnreadable,
	commaSplitsValue,
	modelUnknown,
	fileIgnored,

	// stops
	yardMissing,
	unitMissing,
	stockTaken,
	stockForm,
	measureImpossible,
	deckAddsUp,
	emptyOverGVWR,
	emptyTooLight,
	axlesUnderGVWR,
	tireUnknown,
	loadRangeAndPly,
	tiresUnderAxle,
	wheelsUnderAxle,
	pressureOverTire,
	sidewallOffTable,
	hitchUnderGVWR,
	ballUnderGVWR,
	ballAndHitchKind,
	tongueOverLimit,
	chainsUnderGVWR,
	brakesMissing,
	breakawayMissing,
	surgeBrakesOver,
	serialCheckDigit,
	serialYear,
	claimedPayloadOver,
	figureDisagrees,
	figureUnknown,
	saidNotConfirmed,
	notePastRecording,
	relabelDue,
	serialTwice,
	ballUnderClass,
	waiverUnknown,
	fileMissing,
	captionsUnreadable,
	videoLink,

	// cautions
	tongueOutOfBand,
	axlesOverAtGVWR,
	wideLoad,
	axleOverBridge,
	licenseClass,
	tireNoReserve,
	tireOld,
	tireFromMemory,
	brakesOnSomeAxles,
	lampsShort,
	tapeShort,
	emptyImplausible,
	exciseThreshold,
	tieDownsShort,
	heapOverloads,
	speedSymbolLow,
	steepTail,
	jackUnderTongue,
	spareDiffers,
	noteDisagrees,
	standardOrOption,

	// remarks
	priceMissing,
	tongueNotWeighed,
	photoWithoutAlt,
	htmlLeftOut,
	staleListing,
	weighedLongAgo,
	afterAsOf,
	waiverUnused,
	waiverExpired,
	noteOrder,
	noteTwice,
}
