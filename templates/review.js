"use strict";
(() => {
  const ticks = [...document.querySelectorAll("[data-tick]")];
  const key = "compared " + document.body.dataset.digest;
  const item = (tick) => tick.closest(".value");
  const seen = () => ticks.filter((tick) => !item(tick).hidden);

  const recall = () => { try { return JSON.parse(localStorage.getItem(key)) || []; } catch { return []; } };
  const keep = () => {
    const done = ticks.filter((tick) => tick.checked).map((tick) => tick.id);
    const kept = document.getElementById("kept");
    try { localStorage.setItem(key, JSON.stringify(done)); } catch { kept.textContent = kept.dataset.not; }
  };
  const count = () => {
    const done = ticks.filter((tick) => tick.checked).length;
    document.getElementById("count").textContent = String(done);
    document.getElementById("bar").value = done;
  };
  const show = () => {
    const which = document.querySelector("[name=show]:checked").value;
    for (const tick of ticks) {
      item(tick).hidden = which === "open" ? tick.checked : which === "doubt" ? !item(tick).classList.contains("doubt") : false;
    }
  };
  const go = (tick) => {
    if (!tick) return;
    tick.focus({ preventScroll: true });
    item(tick).scrollIntoView({ block: "center" });
  };
  const step = (by) => {
    const list = seen();
    const at = list.indexOf(document.activeElement);
    if (at >= 0) return go(list[at + by]);
    const here = list.filter((tick) => item(tick).getBoundingClientRect().top >= 0);
    go(by > 0 ? here[0] || list[0] : list[list.length - here.length - 1] || list[0]);
  };

  const before = new Set(recall());
  for (const tick of ticks) tick.checked = before.has(tick.id);
  count();
  document.addEventListener("change", (event) => {
    if (event.target.name === "show") show();
    if (event.target.matches("[data-tick]")) { keep(); count(); }
  });
  document.getElementById("clear").addEventListener("click", (event) => {
    if (!confirm(event.target.dataset.ask)) return;
    for (const tick of ticks) tick.checked = false;
    keep(); count(); show();
  });
  document.addEventListener("keydown", (event) => {
    const on = event.target;
    if (event.ctrlKey || event.metaKey || event.altKey || on.matches("[type=text], [type=radio]")) return;
    const pressed = event.key.toLowerCase();
    const arrow = on.matches("[data-tick]") || on === document.body;
    if (pressed === "j" || (pressed === "arrowdown" && arrow)) step(1);
    else if (pressed === "k" || (pressed === "arrowup" && arrow)) step(-1);
    else if (pressed === "n") {
      const list = seen();
      const at = list.indexOf(on);
      go(list.slice(at + 1).find((tick) => !tick.checked) || list.find((tick) => !tick.checked));
    } else return;
    event.preventDefault();
  });
})();
