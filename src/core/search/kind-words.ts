/** What people who ask for a value of a kind say. Common practice, no source. */
export const KIND_WORDS: Readonly<Record<string, string>> = {
  torque: 'torque, tight, tighten, tightness, tightening',
  'torque-sequence': 'torque, tight, tighten, tightness, tightening, angle, stages',
  pressure: 'pressure, inflate, inflation, pump, air, psi, bar',
  force: 'force, pull, tension',
  length: 'length, size, gap, distance, measure, measurement, limit',
  volume: 'volume, amount, capacity, quantity, fill, litres',
  mass: 'mass, weight, weigh, heavy, amount',
  temperature: 'temperature, hot, heat, degrees',
  angle: 'angle, turn, turns, degrees',
  voltage: 'voltage, volts, charge',
  interval: 'interval, often, every, schedule, due',
  speed: 'speed',
  'turning-speed': 'speed, revs, rpm',
  ratio: 'ratio, mix',
  thread: 'thread, size',
  'viscosity-grade': 'grade, viscosity, weight',
};
