// A dictionary of the words of the plan format, which makes links shorter. In a
// link each word stands as two characters, the first of which no JSON text has.
// Links live long: words may be added at the end, and never moved or taken away.

const WORDS = `
version: name: notes: site: wind_mps: tree: species: height_m: diameter_cm: form_factor: green_density_kgm3: bending_strength_MPa: crown_fraction:
crown_centre_m: crown_offset_m: crown_offset_bearing_deg: crown_area_m2: drag_coefficient: lean_deg: lean_bearing_deg: cavity_cm: mass_kg: mass_centre_m:
grown: sections: fork: cut: stump_m: face_opening_deg: hinge_length_cm: hinge_left_cm: hinge_right_cm: points: id: bearing_deg: distance_m: rise_m: anchor:
kind: capacity_kN: traction: slope_deg: rated_kN: turning_Nm_per_kg: sling_height_m: factor: depth_m: length_m: slot_m: soil_factor: rows: legs: point:
self_adjusting: lines: role: share: path: stem_m: efficiency: tackle: stages: parts: haul_from: reeving: nodes: ropes: terminations: haul_path: puller:
limited_by: stall_kN: setting_kN: tended: tied: rope: mass_kgpm: stiffness_kN: gear: line: place: wll_kN: wll_t: mbl_kN: design_factor: hitch_factor:
reductions: why: last_inspection: next_inspection: retired: allowance: planned_kN: pull_date: plus_minus: readings: brief: after: values: of: method:
sequence: signals: sign: means: roles: by: at: cleared: order: stop_haul_kN: stop_rope_m: happened: photos: date: size: percent: haul_kN: peak_kN: peak_deg:
facing_deg: toward_deg: compass_deg: lay_deg: top_deg: foot_deg: range_top_m: range_foot_m: eye_m: paces: pace_m: girth_m: stick_m: tilt_deg: offset_m:
pull hold stem end fixed moving load haul stall device grip watched rated machine stump buried_log pickets bridle wire_rope fibre_rope sling shackle block
chain winch other open forest tree stem: anchor defects: cavity wound fork
people: needed: saw_operator signaller machine_operator students road building power_line
`.trim().split(/\s+/).map((word) => (word.endsWith(":") ? `"${word.slice(0, -1)}":` : `"${word}"`));

const FIRST = 33; // of the characters that come second
const MANY = 94;

const tokens = new Map(WORDS.map((word, i) => [word, String.fromCharCode(1 + Math.floor(i / MANY), FIRST + (i % MANY))]));

// shortened writes a JSON text without line breaks in the words of the dictionary.
/** @param {string} text */
export function shortened(text) {
  return text.replace(/"\w+":?/g, (word) => tokens.get(word) ?? word);
}

// whole gives the text again, or null where it holds a word that is not in the
// dictionary of this version.
/** @param {string} text */
export function whole(text) {
  let known = true;
  const out = text.replace(/[\x01-\x1f]./gs, ([page, place]) => {
    const word = WORDS[(page.charCodeAt(0) - 1) * MANY + place.charCodeAt(0) - FIRST];
    known &&= word !== undefined;
    return word;
  });
  return known ? out : null;
}
