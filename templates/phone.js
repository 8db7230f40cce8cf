"use strict";
(() => {
  const cards = [...document.querySelectorAll("article")];
  const marks = [...document.querySelectorAll(".marks li")];
  const find = document.getElementById("find");
  const plain = (text) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

  const show = () => {
    const card = cards.find((one) => "#" + one.id === location.hash);
    document.body.className = card ? "one" : "list";
    for (const one of cards) one.classList.toggle("here", one === card);
    if (card) card.focus({ preventScroll: true });
    scrollTo(0, 0);
  };
  const filter = () => {
    const wanted = plain(find.value);
    for (const mark of marks) mark.hidden = !plain(mark.dataset.mark).includes(wanted);
    document.getElementById("nothing").hidden = marks.some((mark) => !mark.hidden);
  };
  addEventListener("hashchange", show);
  if (find) {
    find.addEventListener("input", filter);
    find.addEventListener("keydown", (event) => {
      if (event.key !== "Enter") return;
      const same = marks.filter((mark) => plain(mark.dataset.mark) === plain(find.value));
      if (same.length === 1) location.hash = same[0].querySelector("a").hash;
    });
  }
  show();
})();
