import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { Command as CommanderCommand, CommanderError, Option as CommanderOption } from 'commander';
import { didYouMean } from '../../core/read/index.ts';
import { type LoadedShop, shopLoader } from '../files/index.ts';
import { type Command, type Context, EXIT, type ExitCode, Flags, folderThere, OutsideFailure } from './command.ts';
import { loadCommands } from './commands.ts';

/** What the process hands over; the content folder, its loading and the commands are found here. */
export type Surroundings = Omit<Context, 'content' | 'load' | 'commands'>;

/**
 * Runs one command line.
 *
 * @param words after the program's name
 * @returns the exit code; every expected failure has been told in words
 */
export async function runCommandLine(words: readonly string[], around: Surroundings): Promise<ExitCode> {
  const commands = await loadCommands(words[0]);
  let code: ExitCode = EXIT.fine;
  const program = new CommanderCommand('liftside')
    .description('Lessons, checked specs and classes that end on time, from one long workshop recording')
    .exitOverride()
    .configureOutput({ writeOut: around.out, writeErr: around.say })
    .showHelpAfterError('(liftside --help lists the commands)')
    .helpCommand(false)
    .version(await version(), '--version', 'the version of Liftside');
  const [first] = words;
  if (first !== undefined && !first.startsWith('-') && !commands.some(({ name }) => name === first)) {
    // With --help after it, help would be shown as if there were such a command.
    around.say(
      `error: unknown command '${first}'\n${didYouMean(
        first,
        commands.map(({ name }) => name),
        'liftside --help lists the commands',
      )}`,
    );
    return EXIT.callIsWrong;
  }
  for (const each of commands)
    program.addCommand(
      commanderOf(each, async (args, flags, content) => {
        code = await runOne(each, args, flags, content, around);
      }).copyInheritedSettings(program),
    );
  try {
    await program.parseAsync(['node', 'liftside', ...words]);
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? EXIT.fine : EXIT.callIsWrong;
  }
  return code;
}

/** As package.json says. */
async function version(): Promise<string> {
  const about: unknown = JSON.parse(await readFile(resolve(import.meta.dirname, '../../../package.json'), 'utf8'));
  return typeof about === 'object' && about !== null && 'version' in about ? String(about.version) : 'unknown';
}

function commanderOf(
  each: Command,
  action: (args: readonly string[], flags: Flags, content: string | undefined) => Promise<void>,
): CommanderCommand {
  const built = new CommanderCommand(each.name).description(each.summary).exitOverride();
  for (const arg of each.args) built.argument(arg);
  built.option('--content <DIR>', 'the content folder; content/ where you are when left out');
  for (const { name, short, value, choices, many, help } of each.options) {
    const option = new CommanderOption(`${short ? `-${short}, ` : ''}--${name}${value ? ` <${value}>` : ''}`, help);
    if (choices) option.choices([...choices]);
    if (many) option.argParser((text: string, before: string[] = []) => [...before, text]);
    built.addOption(option);
  }
  built.action(async () => {
    const given = new Map<string, string | readonly string[] | true>();
    // commander keeps options in camel case; commands ask by the name they are written with.
    const values: Record<string, unknown> = built.opts();
    for (const { name } of each.options) {
      const value = values[name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())];
      if (typeof value === 'string' || value === true || isTexts(value)) given.set(name, value);
    }
    const { content } = values;
    await action(built.args, new Flags(given), typeof content === 'string' ? content : undefined);
  });
  return built;
}

function isTexts(value: unknown): value is readonly string[] {
  return Array.isArray(value) && value.every((text) => typeof text === 'string');
}

async function runOne(
  each: Command,
  args: readonly string[],
  flags: Flags,
  contentFlag: string | undefined,
  around: Surroundings,
): Promise<ExitCode> {
  const content = resolve(around.cwd, contentFlag ?? around.env.LIFTSIDE_CONTENT ?? 'content');
  let loaded: Promise<LoadedShop> | undefined;
  const load = async () => {
    loaded ??= loadFolder(content, around.say);
    return loaded;
  };
  try {
    return await each.run(args, flags, { ...around, content, load, commands: () => loadCommands(undefined) });
  } catch (error) {
    if (error instanceof OutsideFailure) {
      around.say(`${error.message}\n${error.help}`);
      return error.callIsWrong ? EXIT.callIsWrong : EXIT.outsideFailed;
    }
    if (around.signal.aborted) {
      around.say('stopped; what was done so far is kept');
      return EXIT.outsideFailed;
    }
    const told = outsideReason(error);
    if (told === undefined && around.env.LIFTSIDE_TRACE) throw error;
    around.say(told ?? faultInWords(error, each.name, content));
    return EXIT.outsideFailed;
  }
}

/** A mistake in the program: where in the code it happened helps only whoever mends it. */
function faultInWords(error: unknown, command: string, content: string): string {
  const message = error instanceof Error ? error.message : String(error);
  // Some tools write the stack into the message.
  const words = message.split('\n').filter((line) => !/^\s+at /.test(line));
  return `this is a fault in Liftside, not in your content: ${words.join('\n')}
what was saved before is whole
please send the file you changed last, or all of ${content} without its media, to the person who gave you Liftside, and say that you typed "${command}": the fault can then be found
LIFTSIDE_TRACE=1 before the command shows where it happened`;
}

async function loadFolder(content: string, say: (text: string) => void): Promise<LoadedShop> {
  await folderThere(content);
  const loaded = await shopLoader(content)();
  for (const note of loaded.notes) say(`note: ${note}`);
  return loaded;
}

/** What the disk or the system refused, in words; nothing for a mistake in the program itself. */
function outsideReason(error: unknown): string | undefined {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return undefined;
  const path = 'path' in error && typeof error.path === 'string' ? ` ${error.path}` : '';
  const words: Readonly<Record<string, string>> = {
    ENOSPC: `the disk is full: nothing more can be written${path}`,
    EDQUOT: `the disk quota is used up: nothing more can be written${path}`,
    EFBIG: `the file has grown past what this disk or account allows:${path} cannot be written further`,
    EIO: `the disk does not answer as it should:${path} cannot be read or written`,
    EACCES: `there is no permission to use${path}`,
    EPERM: `there is no permission to use${path}`,
    EROFS: `the disk is read-only:${path} cannot be written`,
    ENOENT: `there is no file or folder${path}`,
    EADDRINUSE: 'the port is taken by another program; say --port with another number',
  };
  return words[error.code];
}
