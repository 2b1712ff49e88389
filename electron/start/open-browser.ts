import { spawn } from 'node:child_process';

function opener(address: string): readonly [string, readonly string[]] {
  switch (process.platform) {
    case 'win32':
      return ['rundll32', ['url.dll,FileProtocolHandler', address]];
    case 'darwin':
      return ['open', [address]];
    default:
      return ['xdg-open', [address]];
  }
}

/** Opens the person's own browser. @returns whether there was a program to ask; the address is printed anyhow. */
export function openBrowser(address: string): Promise<boolean> {
  const [program, words] = opener(address);
  return new Promise((resolve) => {
    const child = spawn(program, words, { stdio: 'ignore', detached: true });
    child.once('error', () => resolve(false));
    child.once('spawn', () => {
      child.unref();
      resolve(true);
    });
  });
}
