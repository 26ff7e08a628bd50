// A whole plan as a code of letters and digits, for the fragment of a link or
// for a message. The fragment never leaves the device with a request.
//
// The code is
//
//	2        the version of the code; 1 was without the dictionary
//	a letter d or j: packed (deflate-raw) or plain, as base64url;
//	         n or m: the same, as a number in digits with a 1 byte before
//	8 hex    CRC-32 of the plan's text, so that no damaged code is opened
//	rest     the plan's JSON text in the words of the dictionary, in UTF-8

import { shortened, whole } from "./dictionary.js";
import { PLAN_BYTES, Refused, checkPlan, parse } from "./intake.js";
import { say, sayCount, sayNumber } from "./say.js";

/** @typedef {import("./intake.js").Plan} Plan */

const CODE_CHARS = 360000; // a plain plan of full size, and no more
const SLICE = 512; // bytes fed to the unpacker at a time: it cannot flood the memory
const DAMAGED = say("This link or code is damaged or incomplete. Ask for it again, or for the plan as a file.");

// planCode gives the code of a plan; in digits it is longer, but not as a QR code.
/** @param {Plan} plan */
export async function planCode(plan, { digits = false } = {}) {
  const text = JSON.stringify(plan);
  const bytes = new TextEncoder().encode(shortened(text));
  const packed = await pack(bytes);
  const rest = (digits ? toDigits : toBase64)(packed ?? bytes);
  return `2${packed ? (digits ? "n" : "d") : digits ? "m" : "j"}${sumOf(text)}${rest}`;
}

/** @param {string} text */
function sumOf(text) {
  return crc32(new TextEncoder().encode(text)).toString(16).padStart(8, "0");
}

// planFromCode gives the plan in a code, or throws what is wrong with it.
/** @param {string} code */
export async function planFromCode(code) {
  if (code.length > CODE_CHARS) throw new Refused(sayCount(code.length, "This link or code is too long: {n} character.", "This link or code is too long: {n} characters."));
  if (!/^[0-9]/.test(code)) throw new Refused(DAMAGED);
  if (!/^(1[dj]|2[djnm]|[12]?$)/.test(code)) {
    throw new Refused(say("This link or code was made by another version of this page. Load the newest version, or ask for the plan as a file."));
  }
  const [, version, kind, sum, rest] = /^([12])([djnm])([0-9a-f]{8})([A-Za-z0-9_-]+)$/.exec(code) ?? [];
  const bytes = rest && ("nm".includes(kind) ? fromDigits : fromBase64)(rest);
  if (!bytes) throw new Refused(DAMAGED);
  const plain = "dn".includes(kind) ? await unpack(bytes) : bytes;
  if (plain.length > PLAN_BYTES) throw tooBig();
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(plain);
  } catch {
    throw new Refused(DAMAGED);
  }
  if (version === "2") text = whole(text);
  if (text === null || sumOf(text) !== sum) throw new Refused(DAMAGED);
  if (text.length > PLAN_BYTES) throw tooBig();
  return checkPlan(parse(text));
}

// pageAddress is the address of this page without what it shows; "" where the page
// has none, as in a frame made of text.
export function pageAddress() {
  return /^(https?|file):$/.test(location.protocol) ? location.href.replace(/[?#].*$/s, "") : "";
}

// linkFor gives a link to this page that holds a code; "" where it has no address.
/** @param {string} code */
export function linkFor(code) {
  return pageAddress() && `${pageAddress()}#plan=${code}`;
}

// codesIn gives what may be a code in a text: a link, or the code itself,
// perhaps in the middle of a message and broken into lines.
/** @param {string} text */
export function codesIn(text) {
  const at = text.search(/[#&?]plan=/);
  if (at < 0 && !/^\s*(1[dj]|2[djnm])[0-9a-f]{8}/.test(text)) return [];
  const rest = at < 0 ? text.trim() : text.slice(at).replace(/^.plan=\s*/, "");
  const [first] = rest.split(/[\s&"'<>)]/, 1);
  const joined = rest.replace(/\s+/g, "");
  return first === joined ? [first] : [first, joined];
}

// fromText gives the plan in a link, a code or a JSON text. A JSON text that
// is something else comes as it is, when other(value) says so.
/** @param {string} text @param {(value: Plan) => boolean} [other] @param {number} [limit] */
export async function fromText(text, other = (_) => false, limit = PLAN_BYTES) {
  if (text.trim() === "") throw new Refused(say("Nothing to open yet. Paste a link, a code or the text of a plan."));
  let why = null;
  for (const code of /^\s*\{/.test(text) ? [] : codesIn(text)) {
    try {
      return await planFromCode(code);
    } catch (err) {
      why ??= err;
    }
  }
  if (why) throw why;
  const value = parse(text, limit);
  return other(value) ? value : checkPlan(value);
}

function tooBig() {
  return new Refused(say("This is too long to be a plan: more than {most} characters unpacked.", { most: sayNumber(PLAN_BYTES) }));
}

// pack gives the packed bytes, or null where the browser cannot pack.
/** @param {Uint8Array} bytes */
async function pack(bytes) {
  try {
    const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream("deflate-raw"));
    return new Uint8Array(await new Response(stream).arrayBuffer());
  } catch {
    return null;
  }
}

// unpack unpacks a little at a time and stops at the size of a plan.
/** @param {Uint8Array} bytes */
async function unpack(bytes) {
  let unpacker;
  try {
    unpacker = new DecompressionStream("deflate-raw");
  } catch {
    throw new Refused(say("This browser cannot unpack the link or code. Ask for the plan as a file."));
  }
  let at = 0;
  const source = new ReadableStream({
    pull(controller) {
      if (at < bytes.length) controller.enqueue(bytes.slice(at, at += SLICE));
      else controller.close();
    },
  }, { highWaterMark: 0 });
  const out = new Uint8Array(PLAN_BYTES);
  let length = 0;
  const reader = source.pipeThrough(unpacker).getReader();
  for (;;) {
    let step;
    try {
      step = await reader.read();
    } catch {
      throw new Refused(DAMAGED);
    }
    if (step.done) return out.subarray(0, length);
    if (length + step.value.length > PLAN_BYTES) {
      reader.cancel().catch(() => {});
      throw tooBig();
    }
    out.set(step.value, length);
    length += step.value.length;
  }
}

/** @param {Uint8Array} bytes */
function toBase64(bytes) {
  let text = "";
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(text).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** @param {string} text */
function fromBase64(text) {
  try {
    return Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));
  } catch {
    return null;
  }
}

// A 1 byte before the others keeps zeros at their beginning.
/** @param {Uint8Array} bytes */
function toDigits(bytes) {
  return BigInt(`0x01${Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("")}`).toString();
}

/** @param {string} text */
function fromDigits(text) {
  if (!/^\d+$/.test(text)) return null;
  const hex = BigInt(text).toString(16);
  return hex[0] === "1" && hex.length % 2 ? Uint8Array.from(hex.slice(1).match(/../g) ?? [], (byte) => Number.parseInt(byte, 16)) : null;
}

// crc32 is the check sum of ISO-HDLC (the one of gzip, RFC 1952 section 8).
/** @param {Uint8Array} bytes */
export function crc32(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
