import { command, EXIT } from './command.ts';
import { completionScript, SHELLS } from './completion-scripts.ts';

const HOW = {
  bash: 'source <(liftside completion bash) in ~/.bashrc',
  zsh: 'source <(liftside completion zsh) in ~/.zshrc, after compinit',
  fish: 'liftside completion fish > ~/.config/fish/completions/liftside.fish',
};

export default command({
  name: 'completion',
  summary: 'a script by which a shell completes commands and options',
  args: [`<${SHELLS.join('|')}>`],
  options: [],

  async run([wanted = ''], _flags, { out, say, terminal, commands }) {
    const shell = SHELLS.find((each) => each === wanted);
    if (!shell) {
      say(`"${wanted}" is no shell that Liftside knows; say one of ${SHELLS.join(', ')}`);
      return EXIT.callIsWrong;
    }
    out(completionScript(shell, await commands()));
    if (terminal) say(`to use it: ${HOW[shell]}`);
    return EXIT.fine;
  },
});
