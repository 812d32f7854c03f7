import type { Command, Option } from './command.ts';

/** Shells for which a script can be written. */
export const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

const CONTENT: Option = { name: 'content', value: 'DIR', help: 'the content folder' };

/** Options of a command with the one that all have. */
const optionsOf = ({ options }: Command): readonly Option[] => [...options, CONTENT].map(withChoices);

/** What may stand after an option is said as choices, or in what its help shows: `A|B`. */
function withChoices(option: Option): Option {
  const shown = option.value?.includes('|') ? option.value.split('|') : undefined;
  const choices = option.choices ?? shown;
  return choices ? { ...option, choices } : option;
}

/** A text as one word of a shell, whatever is in it (POSIX, Shell Command Language, 2.2.2). */
const quote = (text: string) => `'${text.replaceAll("'", "'\\''")}'`;

/** One line, for a list that a shell shows. */
const line = (text: string) => text.replace(/\s+/g, ' ').trim();

/**
 * A script that completes the commands of Liftside, their options, and what may stand after an option; files elsewhere.
 *
 * @returns to be read by the shell, by `source` or from its folder of completions
 */
export function completionScript(shell: Shell, commands: readonly Command[]): string {
  return { bash, zsh, fish }[shell](commands);
}

/** Bash Reference Manual, 8.6: Programmable Completion. */
function bash(commands: readonly Command[]): string {
  const names = commands.map(({ name }) => name).join(' ');
  const flags = commands.map(
    (each) =>
      `    ${each.name}) words=${quote(
        optionsOf(each)
          .map(({ name }) => `--${name}`)
          .join(' '),
      )};;`,
  );
  const choices = commands.flatMap((each) =>
    optionsOf(each)
      .filter((option) => option.value !== undefined)
      .map(
        ({ name, choices: list }) => `    ${quote(`${each.name} --${name}`)}) words=${quote((list ?? []).join(' '))};;`,
      ),
  );
  return `# Completion of liftside for bash.
_liftside() {
  local current=\${COMP_WORDS[COMP_CWORD]} words=''
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W ${quote(`${names} --help --version`)} -- "$current")
    return
  fi
  case "\${COMP_WORDS[1]} \${COMP_WORDS[COMP_CWORD - 1]}" in
${choices.join('\n')}
    *)
      [[ $current == -* ]] && case \${COMP_WORDS[1]} in
${flags.map((each) => `  ${each}`).join('\n')}
      esac;;
  esac
  if [[ -n $words ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$current")
  else
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -f -- "$current")
  fi
}
complete -F _liftside liftside
`;
}

/** zshcompsys(1): the completion system and its _arguments and _describe. */
function zsh(commands: readonly Command[]): string {
  const named = (text: string) => line(text).replace(/[\\:[\]]/g, '\\$&');
  const cases = commands.map((each) => {
    const lines = optionsOf(each).map(({ name, value, choices, many, help }) => {
      const after = value === undefined ? '' : `:${value}:${choices ? `(${choices.join(' ')})` : '_files'}`;
      return quote(`${many ? '*' : ''}--${name}[${named(help)}]${after}`);
    });
    return `    ${each.name}) _arguments ${lines.join(' ')} '*:file:_files';;`;
  });
  return `#compdef liftside
# Completion of liftside for zsh.
_liftside() {
  if ((CURRENT == 2)); then
    local -a commands=(
${commands.map(({ name, summary }) => `      ${quote(`${name}:${named(summary)}`)}`).join('\n')}
    )
    _describe command commands
    return
  fi
  local command=\${words[2]}
  shift words
  ((CURRENT -= 1))
  case $command in
${cases.join('\n')}
    *) _files;;
  esac
}
if [[ $funcstack[1] == _liftside ]]; then _liftside "$@"; else compdef _liftside liftside; fi
`;
}

/** fish documentation: complete. */
function fish(commands: readonly Command[]): string {
  const lines = commands.flatMap((each) => [
    `complete -c liftside -n __fish_use_subcommand -f -a ${each.name} -d ${fishWord(each.summary)}`,
    ...optionsOf(each).map(({ name, short, value, choices, help }) => {
      const when = `-n ${fishWord(`__fish_seen_subcommand_from ${each.name}`)}`;
      const what = `${short ? ` -s ${short}` : ''} -l ${name}`;
      const after = value === undefined ? '' : choices ? ` -x -a ${fishWord(choices.join(' '))}` : ' -r -F';
      return `complete -c liftside ${when}${what}${after} -d ${fishWord(help)}`;
    }),
  ]);
  return `# Completion of liftside for fish.\n${lines.join('\n')}\n`;
}

/** Within single quotes, fish knows only the backslash and the quote itself as special. */
const fishWord = (text: string) => `'${line(text).replace(/[\\']/g, '\\$&')}'`;
