import { route } from '../route.ts';

const STILL_THERE_MS = 15_000;

/** News as it comes, one JSON value a line: files changed by somebody else, analysis, the shoot log. */
export default route({
  method: 'GET',
  path: 'api/events/',
  async handle({ response }, room) {
    response.writeHead(200, { 'content-type': 'application/x-ndjson; charset=utf-8', 'x-accel-buffering': 'no' });
    response.write('\n');
    const end = room.hub.listen((news) => response.write(`${JSON.stringify(news)}\n`));
    const pulse = setInterval(() => response.write('\n'), STILL_THERE_MS);
    response.on('close', () => {
      clearInterval(pulse);
      end();
    });
    return undefined;
  },
});
