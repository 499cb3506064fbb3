// Makes the chat live: replies come in by themselves, sending does not reload the page, and an
// own message is changed in place. Without this file every form works by itself.
"use strict";

(() => {
  document.documentElement.classList.add("js");
  const talk = document.getElementById("talk");
  if (!talk) return;
  const state = document.getElementById("state");
  const menu = document.querySelector(".menu");
  const photo = document.getElementById("photo");
  let apart = false;

  const show = (text) => { state.textContent = text; };
  const wait = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds));

  // A fresh id for each message, so that one that is sent twice is one message.
  const freshId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(12));
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  };

  // --- what comes in ---------------------------------------------------------------------

  const toNewest = () => {
    const newest = talk.lastElementChild;
    const room = window.innerHeight - document.querySelector("header").offsetHeight
      - document.querySelector("footer").offsetHeight;
    newest.scrollIntoView({ block: newest.offsetHeight > room ? "start" : "end" });
  };

  const add = (html) => {
    const bubble = new DOMParser().parseFromString(html, "text/html").querySelector("li");
    const known = document.getElementById(bubble.id);
    if (known) {
      known.replaceWith(document.adoptNode(bubble));
      return;
    }
    talk.append(document.adoptNode(bubble));
    toNewest();
  };

  const listen = () => {
    const last = talk.lastElementChild.id;
    const news = new EventSource(`${talk.dataset.live}?after=${encodeURIComponent(last)}`);
    news.addEventListener("open", () => {
      if (apart) show("");
      apart = false;
    });
    news.addEventListener("message", (event) => add(event.data));
    news.addEventListener("reload", () => location.reload());
    news.addEventListener("error", () => {
      apart = true;
      show(state.dataset.apart);
      if (news.readyState === EventSource.CLOSED) setTimeout(listen, 3000);
    });
  };

  // --- what goes out ---------------------------------------------------------------------

  const post = async (form, body) => {
    const patience = body.get("photo") ? 120000 : 20000;
    for (let pause = 1000; ; pause = Math.min(pause * 2, 10000)) {
      try {
        const answer = await fetch(form.getAttribute("action"), {
          method: "POST", body, headers: { Accept: "application/json" },
          signal: AbortSignal.timeout(patience),
        });
        if (answer.status !== 503) return answer;
      } catch {
        // No connection: nothing was taken, or its answer was lost. Either way it goes again.
      }
      show(state.dataset.again);
      await wait(pause);
    }
  };

  const send = async (form, button) => {
    if (form.dataset.busy) return;
    const body = new FormData(form);
    if (button && button.name) body.append(button.name, button.value);
    if (body.get("photo") && !body.get("photo").size) body.delete("photo");
    if (!body.get("choice") && !body.get("photo") && !(body.get("text") || "").trim()) return;
    form.dataset.busy = "yes";
    show(state.dataset.sending);
    const answer = await post(form, body);
    delete form.dataset.busy;
    if (answer.ok) {
      show("");
      form.querySelector("[name=id]").value = freshId();
      form.reset();
      if (form.matches(".editing")) form.remove();
    } else if (answer.status === 403) {
      location.reload();
    } else {
      show((await answer.json()).what);
    }
  };

  document.addEventListener("submit", (event) => {
    if (!event.target.matches("form[data-live]")) return;
    event.preventDefault();
    menu.open = false;
    send(event.target, event.submitter);
  });

  photo.addEventListener("change", () => {
    if (!photo.files.length) return;
    if (photo.files[0].size > Number(photo.dataset.most)) {
      show(photo.dataset.tooBig);
      photo.value = "";
      return;
    }
    photo.form.requestSubmit();
  });

  // --- small things ----------------------------------------------------------------------

  document.addEventListener("click", (event) => {
    if (menu.open && !menu.contains(event.target)) menu.open = false;
    const edit = event.target.closest("a.edit");
    if (!edit) return;
    event.preventDefault();
    const bubble = edit.closest(".bubble");
    if (bubble.querySelector(".editing")) return;
    const form = document.getElementById("edit").content.firstElementChild.cloneNode(true);
    form.querySelector("[name=id]").value = freshId();
    form.querySelector("[name=message]").value = edit.dataset.k;
    form.querySelector("[name=text]").value = bubble.querySelector(".words").textContent;
    form.querySelector(".cancel").addEventListener("click", () => form.remove());
    bubble.append(form);
    form.querySelector("[name=text]").focus();
  });

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") menu.open = false;
  });

  toNewest();
  listen();
})();
