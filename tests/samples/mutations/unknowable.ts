/** Why nothing in a content folder can tell a slip. */
export const REASONS = {
  sizes: 'the other unit is about as large, and each of the two figures is usual for such a thing',
  wide: 'such a thing may well be so small, or so large, and no recording says its value',
  alike: 'two rows of one size and kind, whose values no recording says',
  limits: 'limits twice as far apart are still usual, and the recording says a value within them',
} as const;

/** Slips of the demo's table that `check` passes by, each with why it cannot be known. */
export const UNKNOWABLE: Readonly<Record<keyof typeof REASONS, readonly string[]>> = {
  sizes: [
    'another unit: chain-oiling time.unit: h',
    'another unit: brake-fluid-change time.unit: h',
    'another unit: tyre-pressure-front unit: inHg',
    'another unit: tyre-pressure-rear unit: inHg',
    'another unit: engine-oil unit: US pt',
    'another unit: engine-oil unit: US qt',
    'another unit: engine-oil unit: US gal',
    'another unit: engine-oil unit: imp pt',
    'another unit: engine-oil unit: imp qt',
    'another unit: engine-oil unit: imp gal',
    'another unit: kerb-mass unit: lb',
  ],
  wide: ['ten times: kerb-mass nominal: 1680', 'a tenth: battery-rest min: 1.26'],
  alike: [
    'rows exchanged: rear-axle-nut with rear-axle-nut',
    'rows exchanged: chain-oiling with chain-check',
    'rows exchanged: banjo-bolt with axle-pinch-bolt',
    'rows exchanged: banjo-bolt with oil-drain-plug',
    'rows exchanged: banjo-bolt with side-stand-pivot',
    'rows exchanged: pad-lining with tread-indicator',
    'rows exchanged: lever-play with tread-indicator',
    'rows exchanged: brake-fluid-dry with brake-fluid-wet',
    'rows exchanged: front-axle with side-stand-pivot',
    'rows exchanged: tyre-pressure-front with tyre-pressure-rear',
    'rows exchanged: oil-drain-plug with side-stand-pivot',
  ],
  limits: ['tolerance doubled: chain-slack min: 20, max: 40', 'tolerance doubled: rivet-flare min: 5.45, max: 6.05'],
};
