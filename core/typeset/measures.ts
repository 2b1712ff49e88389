/** All lengths in points. Everything stands on an 8-point rhythm, half steps (4) inside a block. */
export const unit = 8;

/** US letter, portrait: what every home and office printer takes. */
export const sheet = { width: 612, height: 792 } as const;

/** The part of a sheet we write in. Left is wider: room for punched holes and the draft line. */
export const frame = { left: 56, right: 572, top: 744, bottom: 48 } as const;

export const frameWidth = frame.right - frame.left;

/** The four sizes, and the distance from baseline to baseline that goes with each. */
export const sizes = { small: 8, text: 10, head: 14, title: 24 } as const;
export const leadings = { small: 12, text: 14, head: 20, title: 32 } as const;
export type SizeName = keyof typeof sizes;

/** Rules: hair for rows, thin for boxes, firm for the edges of a block. */
export const rules = { hair: 0.4, thin: 0.75, firm: 1.5 } as const;
