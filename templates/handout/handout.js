// What a screen adds to the printed page: cells of the diary to tick, and a clock for each
// exercise. Everything stays in this browser's own store; without scripts the page is as printed.
(() => {
  "use strict";
  const { key, start, stop, kept, clear } = document.body.dataset;

  const read = () => {
    try {
      return JSON.parse(localStorage.getItem(key)) || {};
    } catch {
      return {};
    }
  };
  const made = (tag, properties, ...children) => {
    const element = Object.assign(document.createElement(tag), properties);
    element.append(...children);
    return element;
  };

  const diaries = [...document.querySelectorAll(".diary")];
  const fields = [];
  let noted = read();

  const keep = (field) => {
    const value = field.type === "checkbox" ? field.checked : field.value;
    // Another window may have ticked something since.
    noted = read();
    if (value) noted[field.id] = value;
    else delete noted[field.id];
    try {
      localStorage.setItem(key, JSON.stringify(noted));
    } catch {
      // No store, as in some private windows: the tick lasts as long as the page.
    }
  };
  const show = (field) => {
    const value = noted[field.id];
    if (field.type === "checkbox") field.checked = value === true;
    else field.value = typeof value === "string" ? value : "";
  };

  const fill = (table, name) => {
    const heads = [...table.tHead.rows[0].cells];
    heads.forEach((head, column) => (head.id = `${name}-c${column}`));
    [...table.tBodies[0].rows].forEach((row, index) => {
      row.cells[0].id = `${name}-r${index}`;
      [...row.cells].slice(1).forEach((cell, column) => {
        const pain = row.classList.contains("pain");
        const kind = pain ? { type: "number", min: 0, max: 10, inputMode: "numeric" } : { type: "checkbox" };
        const field = made("input", { ...kind, id: `${name}-${index}-${column}`, autocomplete: "off" });
        field.setAttribute("aria-labelledby", `${table.caption.id} ${name}-r${index} ${name}-c${column + 1}`);
        field.addEventListener("change", () => {
          if (pain && !field.checkValidity()) field.value = "";
          keep(field);
        });
        cell.append(field);
        fields.push(field);
        show(field);
      });
    });
  };

  diaries.forEach((diary, place) => {
    [...diary.querySelectorAll("table")].forEach((table, week) => {
      table.caption.id = `d${place}w${week}`;
      fill(table, `d${place}w${week}`);
    });
    const button = made("button", { type: "button", textContent: clear });
    button.addEventListener("click", () => {
      fields.filter((field) => diary.contains(field)).forEach((field) => {
        delete noted[field.id];
        show(field);
        keep(field);
      });
    });
    diary.append(made("p", { className: "kept" }, `${kept} `, button));
  });
  addEventListener("storage", () => {
    noted = read();
    fields.forEach(show);
  });

  let running = null;
  const halt = () => {
    if (!running) return;
    clearInterval(running.beat);
    running.button.textContent = start;
    running = null;
  };
  const run = (button, face) => {
    const since = performance.now();
    const tell = () => {
      const seconds = Math.floor((performance.now() - since) / 1000);
      face.textContent = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
    };
    tell();
    running = { button, beat: setInterval(tell, 200) };
    button.textContent = stop;
  };
  document.querySelectorAll(".exercise").forEach((exercise) => {
    const name = exercise.querySelector(".name");
    const button = made("button", { type: "button", textContent: start, id: `${name.id}-clock` });
    button.setAttribute("aria-labelledby", `${button.id} ${name.id}`);
    const face = made("span", { textContent: "0:00" });
    face.setAttribute("role", "timer");
    face.setAttribute("aria-labelledby", name.id);
    button.addEventListener("click", () => {
      const mine = running && running.button === button;
      halt();
      if (!mine) run(button, face);
    });
    exercise.querySelector(".how").append(made("div", { className: "clock" }, button, face));
  });
})();
