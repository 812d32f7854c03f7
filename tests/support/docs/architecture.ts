import { type Arrow, arrowsOf, SRC, textsBelow } from '../imports.ts';

/** What each family is, as the picture says it. */
const FAMILIES = {
  browser: 'browser: touches the page',
  core: 'core: runs anywhere, values in, values out',
  node: 'node: touches the machine',
} as const;

const BOX = { width: 96, height: 26, across: 26, down: 12 } as const;
const MARGIN = 20;
const HEAD = 34;

/** Rooms of a family, such as `time` and `spec` of core. */
function roomsOf(family: string, paths: readonly string[]): string[] {
  const rooms = paths.filter((path) => path.startsWith(`${family}/`) && path.split('/').length > 2);
  return [...new Set(rooms.map((path) => path.split('/')[1] ?? ''))].toSorted();
}

/** Which rooms of core each one imports; itself left out. */
export function coreArrows(arrows: readonly Arrow[]): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  for (const { from, to } of arrows) {
    const [here, there] = [from, to].map((path) => /^core\/([^/]+)\//.exec(path)?.[1]);
    if (!here || !there || here === there) continue;
    found.set(here, (found.get(here) ?? new Set()).add(there));
  }
  return found;
}

/** How many rooms lie below one on the longest way down; rooms without imports lie at 0. */
export function depthOf(room: string, arrows: ReadonlyMap<string, ReadonlySet<string>>): number {
  return Math.max(-1, ...[...(arrows.get(room) ?? [])].map((below) => depthOf(below, arrows))) + 1;
}

/** The arrows that say something: those that no way over other rooms says, too. */
export function tellingArrows(arrows: ReadonlyMap<string, ReadonlySet<string>>): Arrow[] {
  const reaches = (from: string, to: string): boolean =>
    [...(arrows.get(from) ?? [])].some((next) => next === to || reaches(next, to));
  return [...arrows].flatMap(([from, all]) =>
    [...all].filter((to) => ![...all].some((other) => reaches(other, to))).map((to) => ({ from, to })),
  );
}

/**
 * The rooms of the code and who imports whom, as SVG: core from left to right, each room right of all that it needs;
 * what touches the page above, what touches the machine below.
 */
export function architecturePicture(): string {
  const files = textsBelow(SRC, /\.(ts|tsx|astro)$/);
  const paths = files.map(({ path }) => path);
  const arrows = coreArrows(arrowsOf(files));
  const columns: string[][] = [];
  for (const room of roomsOf('core', paths)) {
    const column = depthOf(room, arrows);
    for (let each = columns.length; each <= column; each++) columns.push([]);
    columns[column]?.push(room);
  }
  const width = MARGIN * 2 + columns.length * (BOX.width + BOX.across) - BOX.across + MARGIN * 2;
  const rows = Math.max(...columns.map(({ length }) => length));
  const [above, below] = [roomsOf('browser', paths), roomsOf('node', paths)].map((rooms) => chips(rooms, width));
  if (!above || !below) throw new Error('two families of rooms stand around core');
  const coreHeight = HEAD + rows * (BOX.height + BOX.down) + BOX.down;
  const coreTop = MARGIN + above.height + 44;
  const nodeTop = coreTop + coreHeight + 44;
  const height = nodeTop + below.height + MARGIN;
  const at = new Map<string, { x: number; y: number }>();
  columns.forEach((column, index) => {
    const free = (rows - column.length) * (BOX.height + BOX.down);
    column.forEach((room, row) => {
      const y = coreTop + HEAD + free / 2 + row * (BOX.height + BOX.down);
      at.set(room, { x: MARGIN * 2 + index * (BOX.width + BOX.across), y });
    });
  });
  const lines = tellingArrows(arrows).flatMap(({ from, to }) => {
    const [a, b] = [at.get(from), at.get(to)];
    return a && b ? [curve(a, b)] : [];
  });
  const middle = Math.round(width / 2);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="Rooms of the code and who imports whom">
<style>
text { font: 13px system-ui, sans-serif; fill: #1d2129 }
.family { font-weight: 700; font-size: 14px }
.frame { fill: #f3f1ea; stroke: #8a8678 }
.room { fill: #fffffa; stroke: #1d2129 }
.core { fill: #e3e9f7; stroke: #1b3a8f }
path { fill: none; stroke: #1b3a8f; stroke-opacity: .55; stroke-width: 1.5 }
.between { stroke: #1d2129; stroke-opacity: 1; stroke-width: 2 }
@media (prefers-color-scheme: dark) {
  text { fill: #eceae2 } .frame { fill: #20242c; stroke: #6b6f78 } .room { fill: #2b3039; stroke: #b9bcc4 }
  .core { fill: #24324f; stroke: #9db4ee } path { stroke: #9db4ee } .between { stroke: #eceae2 }
}
</style>
${frame(MARGIN, width, above.height, FAMILIES.browser)}
${above.boxes(MARGIN)}
${frame(coreTop, width, coreHeight, FAMILIES.core)}
${lines.join('\n')}
${[...at].map(([room, { x, y }]) => box(x, y, room, 'core')).join('\n')}
${frame(nodeTop, width, below.height, FAMILIES.node)}
${below.boxes(nodeTop)}
${arrow(middle, coreTop - 44, coreTop)}
${arrow(middle, nodeTop, coreTop + coreHeight)}
</svg>
`;
}

/** Rooms in rows that fill a frame. */
function chips(rooms: readonly string[], width: number) {
  const fit = Math.floor((width - MARGIN * 4 + BOX.down) / (BOX.width + BOX.down));
  const count = Math.ceil(rooms.length / fit);
  return {
    height: HEAD + count * (BOX.height + BOX.down),
    boxes: (top: number) =>
      rooms
        .map((room, index) =>
          box(
            MARGIN * 2 + (index % fit) * (BOX.width + BOX.down),
            top + HEAD + Math.floor(index / fit) * (BOX.height + BOX.down),
            room,
            'room',
          ),
        )
        .join('\n'),
  };
}

function frame(top: number, width: number, height: number, words: string): string {
  return `<rect class="frame" x="${MARGIN}" y="${top}" width="${width - MARGIN * 2}" height="${height}" rx="4"/>
<text class="family" x="${MARGIN * 2}" y="${top + 22}">${words}</text>`;
}

function box(x: number, y: number, room: string, look: 'core' | 'room'): string {
  return `<rect class="${look}" x="${x}" y="${y}" width="${BOX.width}" height="${BOX.height}" rx="3"/><text x="${x + BOX.width / 2}" y="${y + 18}" text-anchor="middle">${room}</text>`;
}

/** From a room to one that it imports, further left. */
function curve(from: { x: number; y: number }, to: { x: number; y: number }): string {
  const [x, y] = [to.x + BOX.width, to.y + BOX.height / 2];
  const [right, level] = [from.x, from.y + BOX.height / 2];
  return `<path d="M${right} ${level}C${right - BOX.across} ${level} ${x + BOX.across} ${y} ${x} ${y}m6 -4l-6 4l6 4"/>`;
}

function arrow(x: number, from: number, to: number): string {
  const back = Math.sign(from - to) * 7;
  return `<path class="between" d="M${x} ${from}V${to}m-6 ${back}l6 ${-back}l6 ${back}"/>`;
}
