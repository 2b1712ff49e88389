/** Makes something once per object it belongs to, for as long as that lives: statements per database, say. */
export function onceEach<Of extends WeakKey, Made>(make: (of: Of) => Made): (of: Of) => Made {
  const made = new WeakMap<Of, Made>();
  return (of) => {
    const known = made.get(of);
    if (known !== undefined) return known;
    const fresh = make(of);
    made.set(of, fresh);
    return fresh;
  };
}
