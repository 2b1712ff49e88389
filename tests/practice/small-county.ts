/** A practice small enough to read at a glance, right in every line; the tests break or amend it. */
export const smallCounty = `title: Small county
basis: common practice
offices:
  desk: {sort: building, title: Permit desk}
  health: {sort: health}
  roads: {sort: roads}
  agent: {sort: insurer}
  me: {sort: owner}
questions:
  sewage: {ask: Where to?, sort: choice, choices: [septic, sewer], why: It matters., where: The seller., first: yes}
  lender: {ask: Borrowing?, sort: yes or no, why: It matters., where: You know.}
  floor_area: {ask: How large?, sort: area, why: Fees., where: The plans.}
  cost: {ask: How much?, sort: money, why: Fees., where: Your list.}
  acreage: {ask: How many acres?, sort: number, why: Wells., where: The deed.}
conditions:
  big: {floor_area: {over: 5000}}
events:
  begun: Building begun
  moved-in:
papers:
  deed: {from: me, facts: {parcel: parcel number, owner: name}}
  form: {from: me, facts: {parcel: parcel number, day: day}}
  septic-permit:
    from: health
    facts: {bedrooms: count, parcel: parcel number, issued: day}
    good: {lasts: 18 months, until: begun}
  plans: {from: me, facts: {bedrooms: count, parcel: parcel number}}
  card: {from: desk, good: {start_by: {span: 180 days, unless: begun}, idle: 180 days}}
  binder: {from: agent, good: stated, facts: {from: day, to: day}}
  licence: {from: me, each: engagement}
errands:
  septic:
    office: health
    needs: {deed: }
    yields: [septic-permit]
  bind: {office: agent, needs: {}, yields: [binder]}
  apply:
    office: desk
    fee: 240 usd
    takes: 10 to 20 working days
    deliver: counter
    yields: [card]
    needs:
      form: {marks: [signed, dated]}
      plans: {copies: 2}
      septic-permit: {when: {sewage: septic}, good_for: 30 days}
      licence: {each: engagement}
agreements:
  bedrooms: {say: Not more than the permit allows, at_most: [plans.bedrooms, septic-permit.bedrooms]}
duties:
  permit-alive: {kind: card, to: moved-in, say: Keep it alive.}
holds:
  begin: {event: begun, until: [apply], say: Not before the permit.}
`;

/** Line of the first place a piece of the small county stands in. */
export function lineOf(piece: string, text = smallCounty): number {
  return text.slice(0, text.indexOf(piece)).split('\n').length;
}
