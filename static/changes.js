// Applying the changes that the calculator answers to a plan.

const FORBIDDEN = new Set(["__proto__", "constructor", "prototype"]);

// applyChanges gives a changed copy of a plan; the plan itself stays. A
// change that cannot be applied as a whole is an error and changes nothing.
export function applyChanges(plan, changes) {
  const copy = structuredClone(plan);
  for (const change of changes ?? []) applyOne(copy, change);
  return copy;
}

function applyOne(root, { op, at, value }) {
  if (!Array.isArray(at) || at.length === 0) throw new Error("A change needs a place in the plan");
  for (const key of at) {
    const good = typeof key === "number" ? Number.isInteger(key) && key >= 0 : typeof key === "string" && !FORBIDDEN.has(key);
    if (!good) throw new Error(`A plan has no place ${String(key)}`);
  }
  const making = op === "set" || op === "insert";
  let holder = root;
  for (let i = 0; i + 1 < at.length; i++) {
    let next = own(holder, at[i]);
    if (next === null || typeof next !== "object") {
      if (!making) return; // nothing there to delete
      next = typeof at[i + 1] === "number" ? [] : {};
      put(holder, at[i], next);
    }
    holder = next;
  }
  const last = at[at.length - 1];
  if (op === "set") {
    put(holder, last, structuredClone(value));
  } else if (op === "delete") {
    if (Array.isArray(holder)) {
      if (typeof last === "number") holder.splice(last, 1);
    } else if (Object.hasOwn(holder, last)) {
      delete holder[last];
    }
  } else if (op === "insert") {
    let list = own(holder, last);
    if (!Array.isArray(list)) put(holder, last, list = []);
    list.push(structuredClone(value));
  } else {
    throw new Error(`There is no change ${String(op)}`);
  }
}

function own(holder, key) {
  return Object.hasOwn(holder, key) ? holder[key] : undefined;
}

function put(holder, key, value) {
  if (Array.isArray(holder) && (typeof key !== "number" || key > holder.length)) {
    throw new Error(`A list has no place ${String(key)}`);
  }
  holder[key] = value;
}
