import { readdirSync, readFileSync } from 'node:fs';

/** The most resident memory a child of this process has had, as Linux counts it (proc(5), VmHWM); 0 elsewhere. */
export class PeakMemory {
  #kilobytes = 0;

  get peakMB(): number {
    return Math.round(this.#kilobytes / 1024);
  }

  look(): void {
    if (process.platform !== 'linux') return;
    for (const name of readdirSync('/proc')) {
      if (!/^\d+$/.test(name)) continue;
      try {
        const status = readFileSync(`/proc/${name}/status`, 'utf8');
        if (Number(/^PPid:\s+(\d+)/m.exec(status)?.[1]) !== process.pid) continue;
        this.#kilobytes = Math.max(this.#kilobytes, Number(/^VmHWM:\s+(\d+)/m.exec(status)?.[1] ?? 0));
      } catch {
        // It ended meanwhile.
      }
    }
  }
}
