import type { Rule } from '../rule.ts';
import actualTimesBackwards from './actual-times-backwards.ts';
import angleNotAligned from './angle-not-aligned.ts';
import angleOutsideFootage from './angle-outside-footage.ts';
import angleUnknown from './angle-unknown.ts';
import angleWithoutPicture from './angle-without-picture.ts';
import attendeesOverCapacity from './attendees-over-capacity.ts';
import captionCut from './caption-cut.ts';
import captionGap from './caption-gap.ts';
import captionLineLong from './caption-line-long.ts';
import captionOverlap from './caption-overlap.ts';
import captionPastEnd from './caption-past-end.ts';
import captionTooFast from './caption-too-fast.ts';
import captionTooShort from './caption-too-short.ts';
import captionUnread from './caption-unread.ts';
import captionsMissing from './captions-missing.ts';
import chapterWithoutSteps from './chapter-without-steps.ts';
import classBlockTwice from './class-block-twice.ts';
import classBlockUnknown from './class-block-unknown.ts';
import classClash from './class-clash.ts';
import classDatePast from './class-date-past.ts';
import classEstimateDisagrees from './class-estimate-disagrees.ts';
import classOrderImpossible from './class-order-impossible.ts';
import classPartUnknown from './class-part-unknown.ts';
import classPresupposes from './class-presupposes.ts';
import classRoleUnnamed from './class-role-unnamed.ts';
import classTimeOutsideSlot from './class-time-outside-slot.ts';
import collectionNotKept from './collection-not-kept.ts';
import collectionNotTaken from './collection-not-taken.ts';
import correctionAstray from './correction-astray.ts';
import correctionNeedless from './correction-needless.ts';
import cueInCut from './cue-in-cut.ts';
import cueMissing from './cue-missing.ts';
import cueOutOfOrder from './cue-out-of-order.ts';
import cueOutsideRecording from './cue-outside-recording.ts';
import cueOverlap from './cue-overlap.ts';
import dateImpossible from './date-impossible.ts';
import editOutsideRecording from './edit-outside-recording.ts';
import editOverGap from './edit-over-gap.ts';
import editOverlap from './edit-overlap.ts';
import extensionWithoutLever from './extension-without-lever.ts';
import fastenerUnknown from './fastener-unknown.ts';
import fieldOfOtherKind from './field-of-other-kind.ts';
import filesOverlap from './files-overlap.ts';
import footageMissing from './footage-missing.ts';
import gaugeTooCoarse from './gauge-too-coarse.ts';
import handsOnBeforeSafety from './hands-on-before-safety.ts';
import heardUnread from './heard-unread.ts';
import kitUnknown from './kit-unknown.ts';
import lessonMachineUnknown from './lesson-machine-unknown.ts';
import lessonRecordingUnknown from './lesson-recording-unknown.ts';
import lessonYearsOutside from './lesson-years-outside.ts';
import magnitudeUnlikely from './magnitude-unlikely.ts';
import minAboveMax from './min-above-max.ts';
import minutesUnlikely from './minutes-unlikely.ts';
import nominalOutsideLimits from './nominal-outside-limits.ts';
import partNotReplaced from './part-not-replaced.ts';
import presenterUnknown from './presenter-unknown.ts';
import quantityInProse from './quantity-in-prose.ts';
import questionUnanswered from './question-unanswered.ts';
import releaseMissing from './release-missing.ts';
import reviewOverdue from './review-overdue.ts';
import rowIncomplete from './row-incomplete.ts';
import rowYearsOutside from './row-years-outside.ts';
import sharedValueUnchecked from './shared-value-unchecked.ts';
import shownValueWrong from './shown-value-wrong.ts';
import signalWordMissing from './signal-word-missing.ts';
import slotOverrun from './slot-overrun.ts';
import soundEndsEarly from './sound-ends-early.ts';
import specHole from './spec-hole.ts';
import specOverlap from './spec-overlap.ts';
import specUnknown from './spec-unknown.ts';
import specWithdrawn from './spec-withdrawn.ts';
import specWithoutSource from './spec-without-source.ts';
import spokenValueWrong from './spoken-value-wrong.ts';
import stepTitleTwice from './step-title-twice.ts';
import stockShort from './stock-short.ts';
import textNotSearched from './text-not-searched.ts';
import threadUnlikely from './thread-unlikely.ts';
import toleranceUnlikely from './tolerance-unlikely.ts';
import toleranceWithoutNominal from './tolerance-without-nominal.ts';
import toleranceWrittenTwice from './tolerance-written-twice.ts';
import toolKindMissing from './tool-kind-missing.ts';
import toolScaleMissing from './tool-scale-missing.ts';
import torqueUnlikely from './torque-unlikely.ts';
import torqueWithoutWrench from './torque-without-wrench.ts';
import translationDiffers from './translation-differs.ts';
import treatmentTwice from './treatment-twice.ts';
import treatmentUnknown from './treatment-unknown.ts';
import unitAmbiguous from './unit-ambiguous.ts';
import unitMissing from './unit-missing.ts';
import unitOfOtherKind from './unit-of-other-kind.ts';
import unitSlipLikely from './unit-slip-likely.ts';
import unitUnknown from './unit-unknown.ts';
import unitUnlikeOthers from './unit-unlike-others.ts';
import valueImpossible from './value-impossible.ts';
import valueMissing from './value-missing.ts';
import valueUnlikely from './value-unlikely.ts';
import variantUnknown from './variant-unknown.ts';
import weekdayWrong from './weekday-wrong.ts';
import withdrawnValueSaid from './withdrawn-value-said.ts';
import wordTwice from './word-twice.ts';
import wrenchLowOnScale from './wrench-low-on-scale.ts';
import wrenchOutOfRange from './wrench-out-of-range.ts';
import wrenchTooCoarse from './wrench-too-coarse.ts';
import yearsAhead from './years-ahead.ts';

/** Every rule over a shop that could be read; those of reading itself are in core/read/faults.ts. */
export const RULES: readonly Rule[] = [
  dateImpossible,
  gaugeTooCoarse,
  lessonYearsOutside,
  magnitudeUnlikely,
  rowIncomplete,
  rowYearsOutside,
  toleranceUnlikely,
  threadUnlikely,
  toolKindMissing,
  toolScaleMissing,
  unitUnlikeOthers,
  valueUnlikely,
  variantUnknown,
  actualTimesBackwards,
  angleNotAligned,
  angleOutsideFootage,
  angleUnknown,
  angleWithoutPicture,
  attendeesOverCapacity,
  captionCut,
  captionGap,
  captionLineLong,
  captionOverlap,
  captionPastEnd,
  captionTooFast,
  captionTooShort,
  captionUnread,
  captionsMissing,
  chapterWithoutSteps,
  classBlockTwice,
  classBlockUnknown,
  classClash,
  classDatePast,
  classEstimateDisagrees,
  classOrderImpossible,
  classPartUnknown,
  classPresupposes,
  classRoleUnnamed,
  classTimeOutsideSlot,
  correctionAstray,
  correctionNeedless,
  cueInCut,
  cueMissing,
  cueOutOfOrder,
  cueOutsideRecording,
  cueOverlap,
  editOutsideRecording,
  editOverGap,
  editOverlap,
  extensionWithoutLever,
  fastenerUnknown,
  fieldOfOtherKind,
  filesOverlap,
  footageMissing,
  handsOnBeforeSafety,
  heardUnread,
  kitUnknown,
  lessonMachineUnknown,
  lessonRecordingUnknown,
  minAboveMax,
  minutesUnlikely,
  nominalOutsideLimits,
  partNotReplaced,
  presenterUnknown,
  quantityInProse,
  questionUnanswered,
  releaseMissing,
  reviewOverdue,
  signalWordMissing,
  slotOverrun,
  soundEndsEarly,
  specHole,
  specOverlap,
  specUnknown,
  specWithoutSource,
  spokenValueWrong,
  shownValueWrong,
  stepTitleTwice,
  textNotSearched,
  translationDiffers,
  stockShort,
  toleranceWithoutNominal,
  toleranceWrittenTwice,
  torqueUnlikely,
  torqueWithoutWrench,
  treatmentTwice,
  treatmentUnknown,
  unitAmbiguous,
  unitMissing,
  unitOfOtherKind,
  unitSlipLikely,
  unitUnknown,
  valueImpossible,
  valueMissing,
  weekdayWrong,
  wordTwice,
  wrenchLowOnScale,
  wrenchOutOfRange,
  wrenchTooCoarse,
  yearsAhead,
  collectionNotKept,
  collectionNotTaken,
  sharedValueUnchecked,
  specWithdrawn,
  withdrawnValueSaid,
];
