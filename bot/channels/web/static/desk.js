// Keeps the desk's pages fresh, and gives its verbs keys. Without this file all works by itself.
"use strict";

(() => {
  const news = new EventSource("/desk/live");
  const changed = document.getElementById("changed");
  // A form that was opened counts as well, and a choice that was made in one.
  const writing = () => document.querySelector(".verbs details[open]") !== null
    || Array.from(document.querySelectorAll("textarea, input:not([type=hidden])"))
      .some((field) => field.value !== field.defaultValue && field.offsetParent !== null)
    || Array.from(document.querySelectorAll("select"))
      .some((field) => Array.from(field.options)
        .some((one) => one.selected !== one.defaultSelected && one.index > 0));

  // What the desk answered is shown once, not again with every reload.
  if (location.search) history.replaceState(null, "", location.pathname);

  news.addEventListener("news", () => {
    if (!writing()) location.reload();
    else changed.hidden = false;
  });

  // Closed for good: whoever does not work here any more is shown the door, nobody else.
  news.addEventListener("error", async () => {
    if (news.readyState !== EventSource.CLOSED) return;
    const answer = await fetch("/desk", { method: "HEAD" });
    if (answer.status === 403) location.reload();
  });

  // What this page does itself brings its own answer: a reload would cut that off.
  document.addEventListener("submit", () => news.close());

  // Up and down the queue.
  const step = (by) => {
    const links = Array.from(document.querySelectorAll(".queue a"))
      .filter((link) => link.offsetParent !== null);
    if (!links.length) return;
    const at = links.indexOf(document.activeElement);
    const next = at < 0 ? 0 : Math.min(Math.max(at + by, 0), links.length - 1);
    links[next].focus();
  };

  // One key a verb: its button is pressed, or its form is opened and waits for words.
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.matches("input, textarea, select")) return;
    if (event.key === "j" || event.key === "k") {
      step(event.key === "j" ? 1 : -1);
      return;
    }
    const to = document.querySelector(`[data-key="${CSS.escape(event.key)}"]`);
    if (!to) return;
    event.preventDefault();
    if (to.matches("details")) {
      to.open = true;
      to.querySelector("select, textarea").focus();
    } else {
      to.focus();
      if (to.matches("a")) to.click();
    }
  });
})();
