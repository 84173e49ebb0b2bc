// On every page: never an old screen after Back or Forward, folding, printing, and no answer that looks like one.

// A page that the browser kept whole shows entries as they were before it was left.
window.addEventListener("pageshow", (event) => {
  if (event.persisted) window.location.reload();
});

// On a phone, a long group of questions is folded unless something in it is ticked.
if (window.matchMedia("(max-width: 46rem)").matches) {
  for (const group of document.querySelectorAll("[data-fold]")) {
    if (!group.querySelector(":checked")) group.removeAttribute("open");
  }
}

for (const button of document.querySelectorAll("[data-print]")) button.addEventListener("click", () => window.print());

// Elsewhere too, no answer at all must not look as if something was saved.
document.body.addEventListener("htmx:sendError", (event) => {
  if (event.target.closest("[data-upload]")) return;
  const message = document.createElement("p");
  message.className = "message";
  message.textContent = "Haywisp could not be reached, so nothing was saved just now. Try again when there is a connection.";
  document.querySelector("#notice").replaceChildren(message);
});
