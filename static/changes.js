// Applying the changes that the calculator answers to a plan.

const FORBIDDEN = new Set(["__proto__", "constructor", "prototype"]);

/** @typedef {{ [key: string | number]: unknown }} Holder an object or a list */

// applyChanges gives a changed copy of a plan; the plan itself stays. A
// change that cannot be applied as a whole is an error and changes nothing.
/** @template {{ [key: string]: unknown }} P @param {P} plan @param {parts.Change[]} changes */
export function applyChanges(plan, changes) {
  const copy = structuredClone(plan);
  for (const change of changes) applyOne(copy, change);
  return copy;
}

/** @param {Holder} root @param {parts.Change} change */
function applyOne(root, { op, at, value }) {
  if (!Array.isArray(at) || at.length === 0) throw new Error("A change needs a place in the plan");
  const keys = at.map((key) => {
    const good = typeof key === "number" ? Number.isInteger(key) && key >= 0 : typeof key === "string" && !FORBIDDEN.has(key);
    if (!good) throw new Error(`A plan has no place ${String(key)}`);
    return /** @type {string | number} */ (key);
  });
  const making = op === "set" || op === "insert";
  let holder = root;
  for (let i = 0; i + 1 < keys.length; i++) {
    let next = own(holder, keys[i]);
    if (next === null || typeof next !== "object") {
      if (!making) return; // nothing there to delete
      next = typeof keys[i + 1] === "number" ? [] : {};
      put(holder, keys[i], next);
    }
    holder = /** @type {Holder} */ (next);
  }
  const last = keys[keys.length - 1];
  if (op === "set") {
    put(holder, last, structuredClone(value));
  } else if (op === "delete") {
    if (Array.isArray(holder)) {
      if (typeof last === "number") holder.splice(last, 1);
    } else if (Object.hasOwn(holder, last)) {
      delete holder[last];
    }
  } else if (op === "insert") {
    const list = own(holder, last);
    if (Array.isArray(list)) list.push(structuredClone(value));
    else put(holder, last, [structuredClone(value)]);
  } else {
    throw new Error(`There is no change ${String(op)}`);
  }
}

/** @param {Holder} holder @param {string | number} key */
function own(holder, key) {
  return Object.hasOwn(holder, key) ? holder[key] : undefined;
}

/** @param {Holder} holder @param {string | number} key @param {unknown} value */
function put(holder, key, value) {
  if (Array.isArray(holder) && (typeof key !== "number" || key > holder.length)) {
    throw new Error(`A list has no place ${String(key)}`);
  }
  holder[key] = value;
}
