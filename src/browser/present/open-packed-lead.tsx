/** @jsxImportSource preact */
import '../cutting-room/policy.ts';
import { ClockGap } from './ClockGap.tsx';
import { bothMemories, DayMemory } from './day-memory.ts';
import { localStorageThatWorks, memoryBeside, openShelf } from './day-shelf.ts';
import { leadClass } from './lead-class.tsx';
import { PackedFiles } from './PackedFiles.tsx';
import { PackedDay, pageClock } from './packed-day.ts';
import { type PackedDesk, packedDesk, sheetHere } from './packed-desk.ts';
import { roomByWindow } from './room-channel.ts';

/** What looks for ways out, and the solver it does it with: a script of the package brings both. */
interface Advice {
  readonly worker: string;
  /** WebAssembly, Base64. */
  readonly solver: string;
}

async function start(place: Element, desk: PackedDesk): Promise<void> {
  const { liftsideAdvice } = globalThis as { liftsideAdvice?: Advice };
  if (!liftsideAdvice) throw new Error('a script of the package is missing; unpack the whole of it');
  const day = new PackedDay(sheetHere(desk, location.href), await openShelf(), desk.keep, pageClock());
  await leadClass(place, {
    keeper: day,
    memory: bothMemories(memoryBeside(desk.keep, localStorageThatWorks()), await DayMemory.open(desk.keep)),
    room: roomByWindow(desk.keep, desk.room),
    adviser: adviserOf(liftsideAdvice),
    files: (store) => <PackedFiles store={store} day={day} />,
    clock: (sync) => <ClockGap day={day} sync={sync} />,
  });
}

/** A worker that is part of the page, since browsers load none from a folder. */
function adviserOf({ worker, solver }: Advice): Worker {
  const address = URL.createObjectURL(new Blob([worker], { type: 'text/javascript' }));
  const adviser = new Worker(address);
  const bytes = Uint8Array.from(atob(solver), (sign) => sign.charCodeAt(0)).buffer;
  adviser.postMessage({ solver: bytes }, [bytes]);
  return adviser;
}

const found = packedDesk<PackedDesk>();
if (found)
  start(found.place, found.desk).catch((error: unknown) => {
    found.place.textContent = `The class could not be opened: ${error instanceof Error ? error.message : String(error)}`;
  });
