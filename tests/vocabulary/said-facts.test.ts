import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { type FactSort, factSorts } from '../../core/vocabulary/facts.ts';
import { moneyInWords, parseMoney } from '../../core/vocabulary/money.ts';
import { factInWords, readAnswer, readFact } from '../../core/vocabulary/said-facts.ts';

describe('facts as a person says them', () => {
  it('reads each sort the way people write it', () => {
    expect(readFact('count', '3', 'bedrooms').value).toBe(3);
    expect(readFact('area', '1,850 sq ft', 'floor area').value).toBe(1850);
    expect(readFact('flow', '740 CFM', 'fan flow').value).toBe(740);
    expect(readFact('money', '412,500', 'value').value).toBe(41_250_000);
    expect(readFact('yes or no', 'Yes', 'gas').value).toBe(true);
    expect(readFact('elevation', '101.5 ft navd  88', 'lowest floor').value).toEqual({ feet: 101.5, datum: 'NAVD 88' });
  });

  it('never takes an elevation without its datum', () => {
    expect(() => readFact('elevation', '101.5 ft', 'lowest floor')).toThrow(/can't be read/);
  });

  it('does not take a foot for a square foot', () => {
    expect(() => readFact('area', '12 ft', 'floor area')).toThrow(LotfileError);
    expect(() => readFact('count', '3.5', 'bedrooms')).toThrow(LotfileError);
    expect(() => readFact('number', '1,85', 'x')).toThrow(LotfileError);
  });

  it('keeps "don\'t know yet" as an answer of its own', () => {
    expect(readAnswer('count', "don't know yet", 'bedrooms')).toEqual({ sort: "don't know yet" });
    expect(readAnswer('count', '?', 'bedrooms')).toEqual({ sort: "don't know yet" });
  });

  it('ends every input in a fact or a sentence with an example, and reads back what it prints', () => {
    fc.assert(
      fc.property(fc.constantFrom<FactSort>(...factSorts), fc.string(), (sort, said) => {
        try {
          const fact = readFact(sort, said, 'the fact');
          if (sort !== 'day') expect(readFact(sort, factInWords(fact), 'the fact')).toEqual(fact);
        } catch (error) {
          expect(error).toBeInstanceOf(LotfileError);
          expect(error).toMatchObject({ code: 'wrong use' });
        }
      }),
    );
  });

  it('keeps money in whole cents', () => {
    expect(parseMoney('$1,250.50')).toBe(125_050);
    expect(parseMoney('240 usd')).toBe(24_000);
    expect(parseMoney('free')).toBe(0);
    expect(['1.5 usd', '12,50 usd', 'usd', '-3 usd', '240'].map(parseMoney)).toEqual(Array(5).fill(undefined));
    expect(moneyInWords(125_050)).toBe('$1,250.50');
    expect(moneyInWords(-24_000)).toBe('-$240');
  });
});
