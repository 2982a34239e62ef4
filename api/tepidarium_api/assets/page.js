window.SwaggerUIBundle({
  url: "/openapi.json",
  dom_id: "#document",
  deepLinking: true,
  showExtensions: true,
  validatorUrl: null,
  defaultModelsExpandDepth: 0,
});
