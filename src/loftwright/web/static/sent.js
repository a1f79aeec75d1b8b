// Send an act as a form does, so that it is queued, keyed and refused like any other.

export function sendAct(action, fields) {
  const form = document.createElement("form");
  form.method = "post";
  form.action = action;
  form.dataset.act = "";
  form.hidden = true;
  for (const [name, value] of Object.entries(fields)) {
    const field = document.createElement("input");
    field.type = "hidden";
    field.name = name;
    field.value = value;
    form.append(field);
  }
  document.body.append(form);
  form.requestSubmit();
  form.remove();
}
