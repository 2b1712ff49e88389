import { closeSync, openSync, writeSync } from 'node:fs';

/** Writes a file in the regular dialect (see normalise.ts) object by object, in ascending numbers without gaps. */
export class RegularWriter {
  readonly #fd: number;
  readonly #offsets: number[] = [];
  #at = 0;

  constructor(path: string) {
    this.#fd = openSync(path, 'w');
    this.#write(Buffer.from('%PDF-1.7\n%\u00bf\u00f7\u00a2\u00fe\n', 'latin1'));
  }

  #write(bytes: Buffer): void {
    for (let done = 0; done < bytes.length; ) done += writeSync(this.#fd, bytes, done);
    this.#at += bytes.length;
  }

  /** The number the next object gets. */
  get next(): number {
    return this.#offsets.length + 1;
  }

  /** @param body the value as it stands in a file, one character per byte */
  add(body: string | Buffer): number {
    const number = this.next;
    this.#offsets.push(this.#at);
    const bytes = Buffer.isBuffer(body) ? body : Buffer.from(body, 'latin1');
    this.#write(Buffer.concat([Buffer.from(`${number} 0 obj\n`), bytes, Buffer.from('\nendobj\n')]));
    return number;
  }

  /** @param dict the entries besides Length, keys sorted */
  addStream(dict: string, data: Buffer): number {
    const head = Buffer.from(`<< ${dict === '' ? '' : `${dict} `}/Length ${data.length} >>\nstream\n`, 'latin1');
    return this.add(Buffer.concat([head, data, Buffer.from('\nendstream')]));
  }

  /** @param id 32 hex digits; the same pages give the same file */
  finish(root: number, id: string): void {
    const rows = this.#offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
    const size = this.next;
    const trailer = `trailer << /Root ${root} 0 R /Size ${size} /ID [<${id}><${id}>] >>`;
    const start = this.#at;
    this.#write(
      Buffer.from(`xref\n0 ${size}\n0000000000 65535 f \n${rows}${trailer}\nstartxref\n${start}\n%%EOF\n`, 'latin1'),
    );
  }

  close(): void {
    closeSync(this.#fd);
  }
}
