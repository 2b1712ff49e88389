import type { LaunchWorker } from '../../core/desk/door.ts';
import type { UtilityPart } from './parts.ts';

/**
 * Starts a worker as a utility process: the fuse that would let Electron's program run as plain node is off. Electron
 * ends these processes with the program, so nothing has to hold or let go of them.
 */
export function utilityWorker(utilityProcess: UtilityPart): LaunchWorker {
  return ({ program, words, nodeWords }) => {
    const child = utilityProcess.fork(program, [...words], {
      execArgv: [...nodeWords],
      stdio: ['ignore', 'ignore', 'pipe'],
      serviceName: 'Lotfile reader',
    });
    let alive = true;
    child.once('exit', () => {
      alive = false;
    });
    return {
      get alive() {
        return alive;
      },
      send: (message) => {
        if (alive) child.postMessage(message);
      },
      onMessage: (hear) => void child.on('message', hear),
      onEnd: (hear) => void child.once('exit', () => hear()),
      onWords: (hear) => void child.stderr?.on('data', (part) => hear(part.toString())),
      hold: () => undefined,
      kill: () => {
        // Deep in a decoder it hears no polite word.
        if (child.pid === undefined || !alive) {
          child.kill();
          return;
        }
        try {
          process.kill(child.pid, 'SIGKILL');
        } catch {
          // It ended by itself just now, and its end has not been told yet.
          child.kill();
        }
      },
    };
  };
}
