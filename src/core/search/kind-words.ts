import { english } from '../locale/index.ts';
import type { Kind } from '../spec/index.ts';

/** What people who ask for a value of a kind say; other languages say it in their words. Common practice, no source. */
export const KIND_WORDS: Readonly<Record<Kind, string>> = {
  torque: english('torque, tight, tighten, tightness, tightening'),
  'torque-sequence': english('torque, tight, tighten, tightness, tightening, angle, stages'),
  pressure: english('pressure, inflate, inflation, pump, air, psi, bar'),
  force: english('force, pull, tension'),
  length: english('length, size, gap, distance, measure, measurement, limit'),
  volume: english('volume, amount, capacity, quantity, fill, litres'),
  mass: english('mass, weight, weigh, heavy, amount'),
  temperature: english('temperature, hot, heat, degrees'),
  'temperature-difference': english('temperature difference'),
  angle: english('angle, turn, turns, degrees'),
  voltage: english('voltage, volts, charge'),
  interval: english('interval, often, every, schedule, due'),
  speed: english('speed'),
  'turning-speed': english('speed, revs, rpm'),
  ratio: english('ratio, mix'),
  thread: english('thread, size'),
  'viscosity-grade': english('grade, viscosity, weight'),
  current: english('current'),
  resistance: english('resistance'),
  charge: english('charge'),
  power: english('power'),
  flow: english('flow'),
  hardness: english('hardness'),
  count: english('count'),
  time: english('time'),
  distance: english('distance'),
};
