/**
 * A job is replayed after every entry, so what depends on the library alone is worked out once and kept as long as its
 * owner lives. Owners are never changed; the name tells apart what belongs to one owner.
 */
export function onceFor<Owner extends object, Value>(): (
	owner: Owner,
	name: string,
	work: () => Value
) => Value {
	const known = new WeakMap<Owner, Map<string, Value>>();
	return (owner, name, work) => {
		const values = known.get(owner) ?? new Map<string, Value>();
		known.set(owner, values);
		if (!values.has(name)) values.set(name, work());
		return values.get(name) as Value;
	};
}
