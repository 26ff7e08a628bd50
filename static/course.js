// The course page's own script: it writes down the answers that come from
// the views. Nothing else is needed to hear them.

const list = document.getElementById("answers");

document.addEventListener("pull-line-answer", ({ target, detail }) => {
  const line = document.createElement("li");
  line.textContent = `${target.title}, ${detail.id}: “${detail.text}” is ${detail.state === "right" ? "right" : "not right yet"}.`;
  list?.append(line);
  document.getElementById("none")?.remove();
});
