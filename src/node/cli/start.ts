import { shopLoader } from '../files/index.ts';
import { basePath, portNumber } from './build.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'start',
  summary: 'the local site with the cutting room, made afresh with each change of the content',
  args: [],
  options: [
    { name: 'port', value: 'N', help: 'a free one when left out' },
    { name: 'base', value: 'PATH', help: 'the path to serve it under' },
    { name: 'lan', value: 'ADDRESS', help: 'address that phones reach this machine at; found when left out' },
  ],

  async run(_, flags, { content, home, env, load: tryOnce, signal, now, out, say }) {
    await tryOnce();
    const { devSite } = await import('../site/index.ts');
    const base = basePath(flags.text('base') ?? env.LIFTSIDE_BASE ?? '/');
    const { cuttingRoom } = await import('../server/index.ts');
    const port = portNumber(flags.text('port'));
    const load = shopLoader(content);
    const integrations = [cuttingRoom({ content, home, load, now, lan: flags.text('lan') })];
    const served = await devSite({ content, base, home, port, integrations, load });
    out(served.address);
    say(`the cutting room: ${served.address}cutting-room/`);
    await new Promise((stop) => signal.addEventListener('abort', stop, { once: true }));
    await served.close();
    return EXIT.fine;
  },
});
