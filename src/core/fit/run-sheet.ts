import type { Shop } from '../model/index.ts';
import { plural } from '../read/index.ts';
import type { ClassFit } from './fit-class.ts';
import { type BlockKit, kitList } from './kit-list.ts';
import { fromMinutes, mean } from './plan/estimate.ts';
import { givenAs } from './plan/plan.ts';
import type { StationsWritten } from './plan/stations.ts';
import { headCount } from './plan/to-plan.ts';
import { clockText, lengthText } from './plan/words.ts';

/** One line of the run sheet. */
export interface RunSheetRow {
  readonly block: string;
  readonly title: string;
  readonly kind: string;
  /** Clock times, hh:mm. */
  readonly starts: string;
  readonly ends: string;
  readonly length: string;
  readonly treatment: string;
  readonly who: string;
  readonly bay: string;
  /** What is on screen: chapters with their programme minutes. */
  readonly onScreen: readonly string[];
  /** How stations and groups are laid out, where it is hands-on. */
  readonly stations: string;
  readonly kit: BlockKit['items'];
  /** How late it may start and still hold with 90 %, s; negative: even on time it does not. */
  readonly slackSeconds: number;
  readonly latestStart: string;
  /** What to do when it starts later than that. */
  readonly ifLate: readonly string[];
  readonly note: string;
  readonly besideTitle: string;
}

/** The run sheet of a fitted class: given blocks in the order of their clock times. */
export function runSheet(fit: ClassFit, shop: Pick<Shop, 'lessons' | 'kit'>): readonly RunSheetRow[] {
  const { plan, choice, timetable, shopClass, risk } = fit;
  const kits = new Map(kitList(fit, shop).blocks.map((kit) => [kit.block, kit.items]));
  return plan.blocks
    .flatMap((block, index) => {
      const at = timetable.blocks[index];
      const treatment = givenAs(plan, choice, index);
      const written = shopClass.blocks[index];
      return at && treatment && written ? [{ block, index, at, treatment, written }] : [];
    })
    .toSorted((a, b) => a.at.start - b.at.start || a.index - b.index)
    .map(({ block, index, at, treatment, written }): RunSheetRow => {
      const latest = Math.floor(risk.latestStart[index] ?? at.start);
      const stations = written.treatments.find(({ id }) => id === treatment.id)?.stations;
      const cuts = block.treatments
        .filter(({ seconds }) => seconds < treatment.seconds)
        .map((shorter) => `${shorter.title || shorter.id} saves ${lengthText(treatment.seconds - shorter.seconds)}`);
      return {
        block: block.id,
        title: block.title,
        kind: block.kind,
        starts: clockText(plan, at.start),
        ends: clockText(plan, at.end),
        length: lengthText(at.end - at.start),
        treatment: treatment.title,
        who: block.presenter ?? '',
        bay: block.bay ?? '',
        onScreen: treatment.shown.map(
          ({ title, programmeSeconds, speed }) =>
            `${title}, ${lengthText(programmeSeconds)}${speed === 1 ? '' : ` at ${speed} times the speed`}`,
        ),
        stations: stations ? stationsText(stations, treatment.rotations, headCount(shopClass)) : '',
        kit: kits.get(block.id) ?? [],
        slackSeconds: latest - at.start,
        latestStart: clockText(plan, Math.max(0, latest)),
        ifLate: [...cuts, ...(block.must ? [] : [`leaving it out saves ${lengthText(at.end - at.start)}`])],
        note: written.note ?? '',
        besideTitle: plan.blocks.find(({ id }) => id === block.beside)?.title ?? '',
      };
    });
}

/** Stations, groups and turns in a line for who lays them out. */
function stationsText(stations: StationsWritten, turns: number, attendees: number | undefined): string {
  const { count, group, minutes, meanwhile } = stations;
  const people = attendees === undefined ? '' : `${plural(attendees, 'attendee')}, `;
  const each = turns > 1 ? `, ${turns} turns of ${lengthText(mean(fromMinutes(minutes)))}` : '';
  const wait = meanwhile === undefined ? '' : `; meanwhile: ${meanwhile}`;
  return `${people}${plural(count, 'station')}, ${group} at each${each}${wait}`;
}
