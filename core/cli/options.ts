import * as z from 'zod';

/** How one field of a request is written on the command line. */
export interface Option {
  /** The field's name in the request. */
  readonly field: string;
  /** Written `--word`. */
  readonly word: string;
  readonly takes: 'words' | 'number' | 'day' | 'file' | 'flag' | 'pair';
  readonly many: boolean;
  readonly required: boolean;
  readonly choices: readonly string[];
}

const fieldShape = z.object({
  type: z.string().optional(),
  takes: z.enum(['day', 'file']).optional(),
  enum: z.array(z.string()).optional(),
  items: z
    .object({ type: z.string().optional(), takes: z.enum(['day', 'file']).optional() })
    .loose()
    .optional(),
  default: z.unknown().optional(),
});

const objectShape = z.object({
  properties: z.record(z.string(), fieldShape).default({}),
  required: z.array(z.string()).default([]),
});

/** `goodThrough` -> `good-through`; a field that may stand several times is written in the singular. */
function wordOf(field: string, many: boolean): string {
  const dashed = field.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return many ? dashed.replace(/s$/, '') : dashed;
}

function takesOf(shape: z.infer<typeof fieldShape>): Option['takes'] {
  const inner = shape.type === 'array' ? shape.items : shape;
  if (shape.type === 'object') return 'pair';
  if (inner?.takes !== undefined) return inner.takes;
  if (inner?.type === 'boolean') return 'flag';
  return inner?.type === 'number' || inner?.type === 'integer' ? 'number' : 'words';
}

/** The options of a request, read off its schema: the terminal never has a list of its own. */
export function optionsOf(schema: z.ZodType): readonly Option[] {
  const described = objectShape.parse(z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }));
  return Object.entries(described.properties)
    .filter(([, shape]) => shape.items?.type !== 'object')
    .map(([field, shape]) => {
      const many = shape.type === 'array' || shape.type === 'object';
      return {
        field,
        word: wordOf(field, many),
        takes: takesOf(shape),
        many,
        required: described.required.includes(field),
        choices: shape.enum ?? [],
      };
    });
}
