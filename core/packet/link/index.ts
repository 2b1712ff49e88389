export { warmAside } from './aside.ts';
export { linkPacket } from './link-packet.ts';
export type { LinkControl } from './pace.ts';
