// What a page needs a script for: fragments that arrive late, answers while typing, rows dropped on the paste
// box, and sliders. Forms and their answers are the server's; nothing is worked out here.
"use strict";
(() => {
	const page = Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, "0")).join("");
	const $ = (id) => document.getElementById(id);
	document.documentElement.classList.add("js");

	// say shows what went wrong; nothing said takes the words away. again offers the view anew.
	const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1) + ".";
	const say = (words, hint, again) => {
		const box = $("message");
		if (!box) return;
		box.hidden = !words;
		box.textContent = words ? sentence(words) + (hint ? " " + sentence(hint) : "") + " " : "";
		if (again) {
			const link = document.createElement("a");
			link.href = location.pathname + location.search;
			link.textContent = "Show it as it is now";
			box.append(link);
		}
		if (words) box.scrollIntoView({ block: "nearest" });
	};
	const told = (err) => {
		if (err.name !== "AbortError" && err.kind !== "superseded") say(err.message, err.hint, err.kind === "stale");
	};

	// ask sends a request of this page and gives the answer, or throws what the server said.
	const ask = async (url, options = {}) => {
		let answer;
		try {
			answer = await fetch(url, { ...options, headers: { Accept: "application/json", "X-Page": page, ...options.headers } });
		} catch (err) {
			if (err.name === "AbortError") throw err;
			throw Object.assign(new Error("mediabuy does not answer"), { hint: "see whether mediabuy serve is still running" });
		}
		if (answer.ok) return answer;
		const err = new Error("the page did not answer, with status " + answer.status);
		if ((answer.headers.get("Content-Type") || "").startsWith("application/json")) {
			const doc = await answer.json();
			Object.assign(err, { message: doc.error, hint: doc.hint, kind: doc.kind });
		}
		throw err;
	};

	// Fragments that were not there when the page was sent.
	const fill = async (root) => {
		for (const at of root.querySelectorAll("[data-part]")) {
			const url = at.dataset.part;
			at.removeAttribute("data-part");
			try {
				at.innerHTML = await (await ask(url)).text();
				at.removeAttribute("aria-busy");
				fill(at);
			} catch (err) {
				if (err.kind !== "superseded") at.textContent = sentence(err.message) + (err.hint ? " " + sentence(err.hint) : "");
			}
		}
	};
	const early = Boolean($("strip") && $("strip").dataset.part); // the page was sent before its answer
	const parts = Array.from(document.querySelectorAll("[data-part]"), (part) => fill({ querySelectorAll: () => [part] }));
	// A view that was sent before its answer is sent again when the strip has it.
	if (document.querySelector("[data-again]")) Promise.all(parts).then(() => location.reload());

	// Files may change outside while a page is left open. On coming back to it, a view that only shows is shown anew;
	// one that is typed in says so and waits.
	let state = document.body.dataset.state, writing = 0; // writing: saves of this page under way
	const look = async () => {
		if (!state || writing || document.visibilityState !== "visible") return;
		try {
			const now = await (await ask("/part/state")).text();
			if (!state || writing || now === state) return;
			state = "";
			if (document.body.dataset.typed !== undefined) say("the job's files were changed outside this page", "what is shown here is older", true);
			else location.reload();
		} catch { /* the next request of the page says what is wrong */ }
	};
	document.addEventListener("visibilitychange", look);
	addEventListener("focus", look);

	// Marks at cells and rows, in place of those that were there.
	const mark = (marks) => {
		for (const at of document.querySelectorAll('#sheet [id^="m."]')) at.replaceChildren();
		for (const bad of document.querySelectorAll("#sheet [aria-invalid]")) bad.removeAttribute("aria-invalid");
		for (const m of marks) {
			const at = $("m." + m.id);
			if (!at) continue;
			const words = document.createElement("span");
			words.className = m.warning ? "mark warn" : "mark";
			words.textContent = m.words + " ";
			if (m.hint) {
				const hint = document.createElement("span");
				hint.className = "hint";
				hint.textContent = m.hint;
				words.append(hint);
			}
			at.append(words);
			const cell = $("c." + m.id);
			if (!m.warning && cell && /^(INPUT|SELECT)$/.test(cell.tagName)) cell.setAttribute("aria-invalid", "true");
		}
	};

	// The examples of a new job are in the units of where it is.
	const start = $("start");
	if (start) start.elements.place.addEventListener("change", () => {
		const us = start.elements.place.value === "US";
		const such = JSON.parse(us ? start.dataset.us : start.dataset.metric);
		for (const [name, text] of Object.entries(such))
			for (const el of start.querySelectorAll(`input[name^="${name}."]`)) el.placeholder = text;
		$("bare").textContent = such.bare;
	});

	const sheet = $("sheet");
	if (sheet && early && "readonly" in sheet.dataset) Promise.all(parts).then(() => location.reload()); // its problems were not known
	if (sheet && !("readonly" in sheet.dataset)) {
		const file = sheet.dataset.file, tag = sheet.elements.tag, strip = $("strip");
		let abort = null, timer = 0, saving = Promise.resolve(), failed = false;
		const cellsOf = (inputs) => {
			const body = new URLSearchParams({ tag: tag.value, op: "save" });
			for (const i of inputs) body.set(i.name, i.value);
			return body;
		};
		const isCell = (el) => /^[cns]\./.test(el.name || "") || el.name === "text";
		const saved = (el) => /^[cs]\./.test(el.name || ""); // on leaving it
		// What a field was when it was saved: a choice keeps that in its options.
		const was = (el) => el.options ? (Array.from(el.options).find((o) => o.defaultSelected) || el.options[0]).value : el.defaultValue;
		const keep = (el, value) => {
			if (el.options) for (const o of el.options) o.defaultSelected = o.value === value;
			else el.defaultValue = value;
		};
		const changed = () => Array.from(sheet.elements).filter((el) => isCell(el) && el.value !== was(el));
		const show = (doc) => {
			strip.innerHTML = doc.strip;
			$("problems").innerHTML = doc.problems;
			$("files").innerHTML = doc.files;
			if (state) state = doc.state;
			mark(doc.marks || []);
			const undo = $("undo");
			if (undo) {
				undo.hidden = !doc.undo;
				$("undo-what").textContent = doc.undo;
			}
			say("");
		};
		const send = async (url, inputs, signal) => (await ask(url, { method: "POST", body: cellsOf(inputs), signal })).json();
		// While typing: what the cells would come to. A newer try ends the one before.
		const attempt = () => {
			if (abort) abort.abort();
			abort = new AbortController();
			strip.classList.add("waiting");
			const mine = abort;
			send("/try/" + file, changed(), mine.signal).then((doc) => { if (mine === abort) show(doc); })
				.catch((err) => { if (mine === abort) told(err); })
				.finally(() => { if (mine === abort) strip.classList.remove("waiting"); });
		};
		if (early) Promise.all(parts).then(attempt); // brings the problems that were not known
		// On leaving a cell: it is saved, one save after the other, as each needs the tag of the one before.
		const save = (input) => {
			clearTimeout(timer);
			if (abort) abort.abort();
			const value = input.value;
			saving = saving.then(async () => {
				if (value === was(input)) return;
				writing++;
				try {
					const doc = await send("/edit/" + file, [input]);
					keep(input, value);
					tag.value = doc.tag;
					const text = $("text"); // the whole file, beside its fields
					if (text && doc.text && text.value === text.defaultValue) text.value = text.defaultValue = doc.text;
					failed = false;
					show(doc);
				} catch (err) {
					failed = true;
					told(err);
				} finally {
					writing--;
				}
			});
		};
		sheet.addEventListener("input", (e) => {
			if (!isCell(e.target)) return;
			clearTimeout(timer);
			timer = setTimeout(attempt, 90);
		});
		sheet.addEventListener("change", (e) => { if (saved(e.target)) save(e.target); });
		sheet.addEventListener("keydown", (e) => {
			if (e.key !== "Enter" || !/^c\./.test(e.target.name || "")) return;
			e.preventDefault(); // Enter keeps the cell and goes to the one below
			const [, line, index] = e.target.name.split(".");
			let row = $("c." + line);
			do row = row.nextElementSibling; while (row && !row.querySelector(`[name$=".${index}"]`));
			const next = row && row.querySelector(`[name$=".${index}"]`);
			if (next) next.focus(); else e.target.blur();
		});
		// Buttons wait for the saves under way, whose tag they need.
		sheet.addEventListener("submit", async (e) => {
			e.preventDefault();
			const by = e.submitter;
			await saving;
			if (failed) return;
			// Only what was changed is sent: a long table has more cells than a form should have.
			const form = document.createElement("form");
			form.method = "post";
			form.action = sheet.action;
			const fields = [["tag", tag.value], ["op", by ? by.value : "save"], ...changed().map((el) => [el.name, el.value])];
			if (sheet.elements.column) fields.push(["column", sheet.elements.column.value]);
			for (const [name, value] of fields) {
				const field = document.createElement("textarea"); // keeps line ends
				field.name = name;
				field.value = value;
				form.append(field);
			}
			form.hidden = true;
			document.body.append(form);
			form.submit();
		});
	}

	// Files dropped on the paste box go where the file field would put them.
	const box = $("pasted");
	if (box) {
		const over = (e) => {
			if (!Array.from(e.dataTransfer.types).includes("Files")) return;
			e.preventDefault();
			box.classList.toggle("dropping", e.type === "dragover");
		};
		box.addEventListener("dragover", over);
		box.addEventListener("dragleave", over);
		box.addEventListener("drop", (e) => {
			over(e);
			if (!e.dataTransfer.files.length) return;
			$("file").files = e.dataTransfer.files;
			$("paste").requestSubmit();
		});
	}

	// A proposal is looked at again whenever something in it changes.
	const confirmForm = $("confirm");
	if (confirmForm) {
		let last = null;
		confirmForm.addEventListener("change", async () => {
			const body = new URLSearchParams(new FormData(confirmForm));
			body.set("op", "check");
			if (last) last.abort();
			last = new AbortController();
			try {
				const doc = await (await ask("/paste/rows", { method: "POST", body, signal: last.signal })).json();
				const at = document.activeElement && document.activeElement.id;
				confirmForm.innerHTML = doc.confirm;
				if (at && $(at)) $(at).focus();
			} catch (err) {
				told(err);
			}
		});
	}

	// Sliders move a number, and the fragment that answers follows. While one answer is fetched only the newest
	// place waits.
	for (const slide of document.querySelectorAll("input[data-part-of]")) {
		const number = $(slide.dataset.for), into = $(slide.dataset.into);
		let busy = false, again = false;
		const follow = async () => {
			if (busy) {
				again = true;
				return;
			}
			busy = true;
			const query = new URLSearchParams(new FormData(number.form));
			try {
				into.innerHTML = await (await ask(slide.dataset.partOf + "?" + query)).text();
				say("");
			} catch (err) {
				told(err);
			}
			busy = false;
			if (again) {
				again = false;
				follow();
			}
		};
		slide.addEventListener("input", () => {
			number.value = slide.value;
			follow();
		});
		number.addEventListener("input", () => {
			slide.value = number.value;
			if (number.checkValidity() && number.value !== "") follow();
		});
	}
	const choice = $("quote");
	if (choice) choice.addEventListener("change", () => { location.assign("/ask?quote=" + encodeURIComponent(choice.value)); });
})();
