export { planPacket } from './plan-packet.ts';
