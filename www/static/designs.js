// The list of the designs that this browser keeps. It is fetched when somebody
// asks for it; the workshop writes what it shows. Every button is about one
// design: data-do says what is to be done with it.
export function list({ keeper, errand, put, hold, download, take, compare, home }) {
  const dialog = document.createElement("dialog");
  dialog.id = "designs-dialog";
  dialog.setAttribute("aria-labelledby", "designs-title");
  dialog.innerHTML = `<form method="dialog"><h2 id="designs-title">Designs in this browser</h2><button>Close</button></form>
    <p class="hint">Every change is kept here as you make it, and nowhere else: save a file of what must not be lost.</p>
    <div id="designs-said" role="status"></div><div id="designs-list"></div>`;
  document.body.append(dialog);
  const said = dialog.querySelector("#designs-said");

  let records = [];
  const designOf = (r) => { try { return JSON.parse(r.text).design; } catch { return null; } };
  const row = (r) => dialog.querySelector(`button[data-design="${CSS.escape(r.id)}"]`)?.closest("li");
  const titleOf = (r) => r.title || "Without a title";

  async function refresh() {
    if (!dialog.open) return;
    try {
      records = (await keeper.all()).sort((a, b) => b.changed - a.changed);
    } catch (why) {
      return say("There is no list: this browser's storage is refused (" + why.message + ").");
    }
    const { error, regions } = await errand({
      list: records.map((r) => ({
        id: r.id, title: r.title, bench: r.id === home(), design: designOf(r),
        changed: new Date(r.changed).toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" }),
      })),
    });
    if (error) return say("The list cannot be shown (" + error + ").");
    put(regions);
  }

  function say(text, label, act) {
    const p = document.createElement("p"), back = hold();
    p.textContent = text + " ";
    said.replaceChildren(p);
    if (!label) return back();
    const button = document.createElement("button");
    button.textContent = label;
    button.addEventListener("click", act);
    p.append(button);
    button.focus();
  }

  const acts = {
    open(r) {
      dialog.close();
      take(r);
    },
    against(r) {
      dialog.close();
      compare(JSON.stringify(designOf(r)));
      const title = document.getElementById("compare-title");
      title.focus();
      title.scrollIntoView();
    },
    async duplicate(r) {
      const title = "Copy of " + titleOf(r).slice(0, 190), kept = JSON.parse(r.text);
      const text = JSON.stringify({ ...kept, design: { ...kept.design, title } });
      await keeper.add({ ...r, id: keeper.fresh(), title, text, sample: false, changed: Date.now() });
      say("“" + title + "” is among them now.");
    },
    async export(r) {
      const { file } = await errand({ design: designOf(r), file: "design" });
      if (file) download(file.name, file.content, file.type);
      else download("plant.drawoff.json", JSON.stringify(designOf(r)) || r.text, "application/json"); // as it stands
      say("Saved as a file.");
    },
    async delete(r) {
      const bench = r.id === home();
      await keeper.remove(r.id);
      if (bench) await take(records.find((other) => other !== r && designOf(other)));
      row(r)?.remove(); // the list is written anew when the workshop has time
      say("“" + titleOf(r) + "” is deleted.", "Undo", async () => {
        const back = await keeper.add(r);
        if (bench) await take(back);
        say("“" + titleOf(r) + "” is back.");
        await refresh();
      });
    },
  };

  dialog.addEventListener("click", async (e) => {
    const button = e.target.closest("button[data-do]");
    const r = button && records.find((r) => r.id === button.dataset.design);
    if (!r) return;
    try {
      await acts[button.dataset.do](r);
    } catch (why) {
      say("That could not be done: this browser's storage is full or refused (" + why.message + ").");
    }
    await refresh();
  });

  return {
    refresh,
    show() {
      said.replaceChildren();
      dialog.showModal();
      return refresh();
    },
  };
}
