import { availableParallelism } from 'node:os';
import { withScratchFolder } from '../files/index.ts';
import { findTools } from '../media/tools.ts';
import { command, EXIT, OutsideFailure } from './command.ts';

export default command({
  name: 'worker',
  summary: 'does jobs of the queue that LIFTSIDE_QUEUE names, on this machine, until Ctrl-C',
  args: [],
  options: [{ name: 'side-by-side', value: 'N', help: 'jobs at once; one for each processor when left out' }],

  async run(_, flags, { env, cwd, say, signal }) {
    const { connect, neededSettings, openMediaStore, shownAddress, work, workerSkills } = await import(
      '../queue/index.ts'
    );
    const sideBySide = Number(flags.text('side-by-side') ?? availableParallelism());
    if (!Number.isInteger(sideBySide) || sideBySide < 1 || sideBySide > 1000) {
      say('--side-by-side takes a whole number from 1 to 1000');
      return EXIT.callIsWrong;
    }
    const settings = neededSettings(env);
    const tools = await findTools(env);
    if (!tools.ok) throw new OutsideFailure(tools.problem, tools.help);
    const store = await openMediaStore(settings, cwd, env);
    const { skills, lacks } = await workerSkills(env, cwd);
    const connected = await connect(settings);
    try {
      for (const words of [...(await connected.warnings()), ...lacks]) say(`note: ${words}`);
      say(`worker on ${shownAddress(settings.address)}`);
      await withScratchFolder('worker', (scratch) =>
        work({ connected, store, token: settings.token, tools: tools.value, scratch, skills, sideBySide, signal, say }),
      );
    } finally {
      await connected.close();
    }
    return EXIT.fine;
  },
});
