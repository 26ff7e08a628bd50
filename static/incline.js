// The phone as an angle gauge: hands on how it is held, in degrees as the
// browser gives them. What angle that makes is worked out by the calculator.

import { say } from "./say.js";

const WAIT = 2500; // ms for a first reading; a desktop never gives one

// watchPhone asks for leave where that is needed, so it must be called from a
// tap. It gives a promise of { state, stop }: "working", "denied" or "missing".
// Every reading goes to the listener as [beta, gamma].
/**
 * @param {(attitude: [beta: number, gamma: number]) => void} listener
 * @returns {Promise<{ state: "working" | "denied" | "missing", stop(): void }>}
 */
export async function watchPhone(listener) {
  /** @type {(typeof DeviceOrientationEvent & { requestPermission?: () => Promise<string> }) | undefined} */
  const Orientation = globalThis.DeviceOrientationEvent;
  const nothing = (/** @type {"denied" | "missing"} */ state) => ({ state, stop() {} });
  if (!Orientation) return nothing("missing");
  if (typeof Orientation.requestPermission === "function") {
    let answer = "denied";
    try {
      answer = await Orientation.requestPermission();
    } catch {
      // asked without a tap, or not allowed at all
    }
    if (answer !== "granted") return nothing("denied");
  }
  return new Promise((answer) => {
    let heard = false;
    const hear = (/** @type {DeviceOrientationEvent} */ event) => {
      if (typeof event.beta !== "number" || typeof event.gamma !== "number") return;
      if (!heard) {
        heard = true;
        clearTimeout(timer);
        answer({ state: "working", stop });
      }
      listener([event.beta, event.gamma]);
    };
    const stop = () => removeEventListener("deviceorientation", hear);
    const timer = setTimeout(() => {
      stop();
      answer(nothing("missing"));
    }, WAIT);
    addEventListener("deviceorientation", hear);
  });
}

export const PHONE_WORDS = {
  asking: say("Waiting for the phone’s tilt sensor."),
  working: say("Sight, hold still, take the reading. Take three or more."),
  denied: say("This browser does not let the page use the tilt sensor. Type the angle above, or allow the sensor in the browser’s settings for this page."),
  missing: say("This device has no tilt sensor. Type the angle above."),
};
