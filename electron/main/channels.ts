/** What the preload script and the main program call each other by. */
export const channels = {
  ask: 'lotfile:ask',
  act: 'lotfile:act',
  stop: 'lotfile:stop',
  /** A dropped file that lies on the disk: its path is told by the preload script, never by the page. */
  takeFile: 'lotfile:take-file',
  /** A file that lies nowhere (pasted, made by the page): its bytes. */
  takeBytes: 'lotfile:take-bytes',
  dragOut: 'lotfile:drag-out',
  told: 'lotfile:told',
} as const;

export const windowAddress = 'lotfile://window/';
