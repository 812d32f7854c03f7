import { must } from '../time/index.ts';
import type { ClassFit } from './fit-class.ts';
import { type Offer, offeredMinutes } from './plan/learn.ts';
import { givenAs } from './plan/plan.ts';
import { clockText, demandText } from './plan/words.ts';

/** The JSON of `fit --json`. Times in s from the start of the class. */
export function fitJson(fit: ClassFit, offers: readonly Offer[] = []) {
  const { plan, choice, timetable, risk, proof, conflict } = fit;
  const idOf = (block: number) => must(plan.blocks[block], 'a block').id;
  const order = plan.blocks
    .map((block, index) => ({ block, index, at: timetable.blocks[index], treatment: givenAs(plan, choice, index) }))
    .flatMap(({ at, treatment, ...rest }) => (at && treatment ? [{ ...rest, at, treatment }] : []))
    .toSorted((a, b) => a.at.start - b.at.start || a.index - b.index);
  return {
    class: plan.id,
    slotSeconds: plan.slotSeconds,
    plannedSeconds: timetable.end,
    slackSeconds: plan.slotSeconds - timetable.end,
    fits: fit.fits,
    overrunProbability: risk.overrunProbability,
    blocks: order.map(({ block, at, treatment }) => ({
      id: block.id,
      title: block.title,
      treatment: treatment.id,
      start: at.start,
      end: at.end,
      starts: clockText(plan, at.start),
      ends: clockText(plan, at.end),
    })),
    left: fit.left.map(({ block, reason }) => ({
      id: idOf(block),
      title: must(plan.blocks[block], 'a block').title,
      reason,
    })),
    advice: fit.advice.map(({ kind, text, savesSeconds, worthLost, enough }) => ({
      text,
      savesSeconds: Math.round(savesSeconds),
      worthLost,
      kind,
      enough,
    })),
    ...(fit.turns[0] && { attendees: fit.turns[0].attendees }),
    stations: fit.turns.map(({ block, stations, turns, groups, turnSeconds, last, next }) => ({
      id: idOf(block),
      stations: stations.count,
      groups,
      turns,
      turnSeconds: Math.round(turnSeconds),
      ...(last && { lastTurnFrom: last.attendee, lastTurnSeconds: Math.round(last.costSeconds) }),
      nextTurnFrom: next,
    })),
    bufferSeconds: plan.bufferSeconds,
    ...(proof && { proof }),
    ...(conflict && {
      conflict: {
        smallest: conflict.smallest,
        demands: conflict.demands.map((demand) => ({ kind: demand.kind, text: demandText(plan, demand) })),
      },
    }),
    risk: {
      end: risk.end,
      bufferFor90Seconds: Math.round(risk.bufferFor90),
      causes: risk.causes.map(({ block, extraSeconds, share }) => ({
        id: idOf(block),
        extraSeconds: Math.round(extraSeconds),
        share,
      })),
      latestStart: risk.latestStart.flatMap((seconds, block) =>
        seconds === undefined ? [] : [{ id: idOf(block), seconds: Math.floor(seconds) }],
      ),
      lateStart: risk.lateStart.map(({ block, probability }) => ({ id: idOf(block), probability })),
    },
    trimTargets: fit.trim,
    estimates: offers.map((offer) => ({
      id: offer.block,
      treatment: offer.treatment,
      tookMinutes: offer.took.map((seconds) => Math.round(seconds / 6) / 10),
      offeredMinutes: offeredMinutes(offer),
    })),
    unknown: fit.unknown,
  };
}
