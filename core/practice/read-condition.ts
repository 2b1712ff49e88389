import { type Cents, parseMoney } from '../vocabulary/money.ts';
import type { Condition } from '../vocabulary/practice.ts';
import type { Fields } from './fields.ts';
import { didYouMean } from './problems.ts';
import { exists, type QuestionShape, type Scope } from './scope.ts';
import { itemsOf } from './values.ts';
import { at, type Entry, type MapTree, type ScalarTree, type Tree } from './yaml-tree.ts';

/** Reads the closed rule language: map keys and-ed, lists or-ed, `over`/`under`, `happened`, `held`, named conditions. */
class ConditionReader {
  readonly #scope: Scope;
  /** Named conditions being read, to catch one that rests on itself. */
  readonly #open: readonly string[];

  constructor(scope: Scope, open: readonly string[] = []) {
    this.#scope = scope;
    this.#open = open;
  }

  read(tree: Tree): Condition | undefined {
    if (tree.of === 'list')
      return joined(
        'or',
        tree.items.map((item) => this.read(item)),
      );
    if (tree.of === 'map')
      return joined(
        'and',
        [...tree.entries.values()].map((entry) => this.#entry(entry)),
      );
    if (tree.value === null) return this.#wrong(tree, 'A condition is empty here.');
    return this.#name(tree);
  }

  /** A single word: a named condition, or a yes-or-no question answered yes. */
  #name(tree: ScalarTree): Condition | undefined {
    if (this.#scope.known.condition.has(tree.text)) return this.#named(tree.text, tree);
    const question = this.#scope.questions.get(tree.text);
    if (question?.sort === 'yes or no') return { op: 'is', question: tree.text, values: [true] };
    if (question !== undefined)
      return this.#wrong(tree, `"${tree.text}" is no yes-or-no question: write {${tree.text}: ...}.`);
    const known = [...this.#scope.known.condition, ...this.#scope.known.question];
    return this.#wrong(tree, `There is no condition or question "${tree.text}"${didYouMean(tree.text, known)}`);
  }

  #named(name: string, tree: Tree): Condition | undefined {
    const body = this.#scope.conditions === undefined ? undefined : at(this.#scope.conditions, name);
    if (body === undefined) return undefined;
    if (this.#open.includes(name)) {
      return this.#wrong(tree, `The condition "${name}" rests on itself: ${[...this.#open, name].join(', ')}.`);
    }
    return new ConditionReader(this.#scope, [...this.#open, name]).read(body);
  }

  #entry(entry: Entry): Condition | undefined {
    const { key, value } = entry;
    if (key === 'happened') return this.#happened(value);
    if (key === 'held') return this.#held(value);
    if (this.#scope.known.condition.has(key)) return this.#namedWith(key, value);
    if (!exists(this.#scope, 'question', key, entry.at)) return undefined;
    const shape = this.#scope.questions.get(key);
    return shape === undefined ? undefined : this.#question(key, shape, value);
  }

  #happened(value: Tree): Condition | undefined {
    const items = itemsOf(value, '"happened"', this.#scope.problems);
    const known = items.filter((item) => exists(this.#scope, 'event', item.text, item.at));
    return joined(
      'or',
      known.map((item) => ({ op: 'happened', event: item.text })),
    );
  }

  #held(value: Tree): Condition | undefined {
    const items = itemsOf(value, '"held"', this.#scope.problems);
    const known = items.filter((item) => exists(this.#scope, 'kind', item.text, item.at));
    return joined(
      'or',
      known.map((item) => ({ op: 'held', kind: item.text })),
    );
  }

  #namedWith(name: string, value: Tree): Condition | undefined {
    const word = value.of === 'scalar' ? value.text : '';
    if (!['yes', 'no', 'true', 'false'].includes(word)) {
      return this.#wrong(value, `The condition "${name}" is yes or no, not "${word}".`);
    }
    const inner = this.#named(name, value);
    if (inner === undefined || word === 'yes' || word === 'true') return inner;
    return { op: 'not', of: inner };
  }

  #question(question: string, shape: QuestionShape, value: Tree): Condition | undefined {
    if (value.of === 'map') {
      return joined(
        'and',
        [...value.entries.values()].map((entry) => this.#bound(question, shape, entry)),
      );
    }
    const items = itemsOf(value, `The answer to "${question}"`, this.#scope.problems);
    const values = items.flatMap((item) => this.#answer(question, shape, item) ?? []);
    return values.length === 0 ? undefined : { op: 'is', question, values };
  }

  #bound(question: string, shape: QuestionShape, entry: Entry): Condition | undefined {
    const { key, value } = entry;
    if (key !== 'over' && key !== 'under') {
      return this.#wrong(
        entry,
        `"${question}" can be "over" or "under" something, not "${key}"${didYouMean(key, ['over', 'under'])}`,
      );
    }
    const found = value.of === 'scalar' ? value : undefined;
    const amount: number | Cents | undefined =
      shape.sort === 'money' && found !== undefined
        ? parseMoney(found.text)
        : typeof found?.value === 'number'
          ? found.value
          : undefined;
    if (!numeric.has(shape.sort))
      return this.#wrong(entry, `"${question}" is answered with ${shape.sort}: it has no ${key}.`);
    if (amount === undefined) {
      const how = shape.sort === 'money' ? 'an amount like "2,500 usd"' : 'a number';
      return this.#wrong(value, `"${key}" needs ${how}, not "${found?.text ?? ''}".`);
    }
    return { op: key, question, value: amount };
  }

  #answer(question: string, shape: QuestionShape, item: ScalarTree): string | number | boolean | undefined {
    if (shape.sort === 'yes or no') {
      if (item.text === 'yes' || item.value === true) return true;
      if (item.text === 'no' || item.value === false) return false;
      return this.#wrong(item, `"${question}" is answered yes or no, not "${item.text}".`);
    }
    if (shape.sort === 'choice') {
      if (shape.choices.includes(item.text)) return item.text;
      const said = `"${question}" is never answered "${item.text}" (only ${shape.choices.join(', ')})`;
      return this.#wrong(item, `${said}${didYouMean(item.text, shape.choices)}`);
    }
    if (shape.sort === 'money') return parseMoney(item.text) ?? this.#wrong(item, `"${item.text}" is no amount.`);
    if (!numeric.has(shape.sort)) return item.text;
    return typeof item.value === 'number' ? item.value : this.#wrong(item, `"${item.text}" is no number.`);
  }

  #wrong(tree: { readonly at: Tree['at'] }, sentence: string): undefined {
    this.#scope.problems.add(tree.at, sentence);
    return undefined;
  }
}

const numeric: ReadonlySet<string> = new Set([
  'count',
  'number',
  'money',
  'length',
  'area',
  'volume',
  'flow',
  'elevation',
  'percent',
]);

function joined(op: 'and' | 'or', parts: readonly (Condition | undefined)[]): Condition | undefined {
  const of = parts.filter((part) => part !== undefined);
  if (of.length !== parts.length || of.length === 0) return undefined;
  return of.length === 1 ? of[0] : { op, of };
}

export function readCondition(tree: Tree, scope: Scope): Condition | undefined {
  if (tree.of === 'map' && tree.entries.size === 0) {
    scope.problems.add(tree.at, 'A condition is empty here.');
    return undefined;
  }
  return new ConditionReader(scope).read(tree);
}

/** The `when` and `unless` of a rule as one condition. */
export function readWhen(fields: Fields): Condition | undefined {
  const when = fields.get('when');
  const unless = fields.get('unless');
  const yes = when === undefined ? undefined : readCondition(when, fields.scope);
  const no = unless === undefined ? undefined : readCondition(unless, fields.scope);
  if (no === undefined) return yes;
  const not: Condition = { op: 'not', of: no };
  return yes === undefined ? not : { op: 'and', of: [yes, not] };
}

/** Reads every named condition once, so that a mistake in one nobody uses is told too. */
export function checkNamedConditions(section: MapTree | undefined, scope: Scope): void {
  if (section === undefined) return;
  for (const { key, value } of section.entries.values()) new ConditionReader(scope, [key]).read(value);
}
