// The course page's own script: it writes down the answers that come from
// the views. Nothing else is needed to hear them.

const list = document.getElementById("answers");

document.addEventListener("pull-line-answer", ({ target, detail }) => {
  const words = { right: "right", wrong: "not yet", unread: "could not be read", shown: "looked up" };
  const line = document.createElement("li");
  line.textContent = `${target.title}: ${detail.text || "no answer"} – ${words[detail.state] ?? detail.state}`;
  list.append(line);
  document.getElementById("none").hidden = true;
});
