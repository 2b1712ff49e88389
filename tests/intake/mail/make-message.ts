import { burn } from '@kenjiuno/msgreader/lib/Burner.js';

/** Node types of a compound file (MS-CFB, 2.6.1). */
const [storage, stream, root] = [1, 2, 5];

interface Node {
  readonly name: string;
  readonly type: number;
  readonly data?: Buffer;
  children?: number[];
}

const utf16 = (text: string) => Buffer.from(text, 'utf16le');

/** An Outlook message (MS-OXMSG) in a compound file: subject 0037, body 1000, attachments with name 3707, data 3701. */
export function messageOf(
  subject: string,
  body: string,
  attachments: readonly (readonly [name: string, data: Buffer])[],
): Uint8Array {
  const nodes: Node[] = [{ name: 'Root Entry', type: root, children: [] }];
  const add = (parent: number, node: Node): number => {
    nodes.push(node);
    nodes[parent]?.children?.push(nodes.length - 1);
    return nodes.length - 1;
  };
  add(0, { name: '__properties_version1.0', type: stream, data: Buffer.alloc(32) });
  add(0, { name: '__substg1.0_0037001F', type: stream, data: utf16(subject) });
  add(0, { name: '__substg1.0_1000001F', type: stream, data: utf16(body) });
  for (const [index, [name, data]] of attachments.entries()) {
    const at = add(0, { name: `__attach_version1.0_#0000000${index}`, type: storage, children: [] });
    add(at, { name: '__properties_version1.0', type: stream, data: Buffer.alloc(8) });
    add(at, { name: '__substg1.0_3707001F', type: stream, data: utf16(name) });
    add(at, { name: '__substg1.0_37010102', type: stream, data });
  }
  return burn(
    nodes.map(({ name, type, data, children }) => ({
      name,
      type,
      length: data?.length ?? 0,
      ...(data === undefined ? {} : { binaryProvider: () => Uint8Array.from(data) }),
      ...(children === undefined ? {} : { children }),
    })),
  );
}
