// Keeps the desk's pages fresh, and gives its verbs keys. Without this file all works by itself.
"use strict";

(() => {
  const news = new EventSource("/desk/live");
  const changed = document.getElementById("changed");
  const writing = () => Array.from(document.querySelectorAll("textarea, input:not([type=hidden])"))
    .some((field) => field.value && field.offsetParent !== null);

  news.addEventListener("news", () => {
    if (!writing()) location.reload();
    else changed.hidden = false;
  });

  // What this page does itself brings its own answer: a reload would cut that off.
  document.addEventListener("submit", () => news.close());

  // One key a verb: its button is pressed, or its form is opened and waits for words.
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.matches("input, textarea, select")) return;
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
