package strokewright.web;

import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.media.ArraySchema;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.IntegerSchema;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.ObjectSchema;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.media.StringSchema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.security.SecurityRequirement;
import io.swagger.v3.oas.models.security.SecurityScheme;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.springdoc.core.customizers.OpenApiCustomizer;
import org.springdoc.core.customizers.OperationCustomizer;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import strokewright.quantity.Money;

/** What the description of the interface (OpenAPI) cannot read off the controllers. */
@Configuration(proxyBeanMethods = false)
class ApiDescription {

    static {
        SpringDocUtils.getConfig().replaceWithSchema(Money.class, money());
    }

    private static Schema<?> money() {
        Schema<?> money = new ObjectSchema();
        money.addProperty(
                        "amount",
                        new StringSchema().pattern("-?\\d{1,15}(\\.\\d{1,6})?").example("1234.50"))
                .addProperty("currency", new StringSchema().description("ISO 4217").example("EUR"));
        money.setRequired(List.of("amount", "currency"));
        return money;
    }

    private static Schema<?> problem() {
        Schema<?> fault = new ObjectSchema();
        fault.addProperty("pointer", new StringSchema().description("RFC 6901"))
                .addProperty("message", new StringSchema());
        fault.setRequired(List.of("pointer", "message"));
        Schema<?> problem = new ObjectSchema();
        problem.description("RFC 9457")
                .addProperty("type", new StringSchema().example("/problems/invalid-fields"))
                .addProperty("title", new StringSchema())
                .addProperty("status", new IntegerSchema())
                .addProperty("detail", new StringSchema())
                .addProperty("errors", new ArraySchema().items(fault))
                .addProperty("traceId", new StringSchema());
        problem.setRequired(List.of("type", "title", "status", "traceId"));
        return problem;
    }

    @Bean
    OpenApiCustomizer interfaceAsAWhole() {
        return api -> {
            api.info(new Info().title("Strokewright").version("v1"));
            Components parts = api.getComponents() == null ? new Components() : api.getComponents();
            parts.addSchemas("Problem", problem());
            parts.addSecuritySchemes(
                    "token", new SecurityScheme().type(SecurityScheme.Type.HTTP).scheme("bearer"));
            parts.addSecuritySchemes(
                    "password",
                    new SecurityScheme().type(SecurityScheme.Type.HTTP).scheme("basic"));
            api.components(parts)
                    .addSecurityItem(new SecurityRequirement().addList("token"))
                    .addSecurityItem(new SecurityRequirement().addList("password"));
            everyOperation(api);
        };
    }

    private static void everyOperation(OpenAPI api) {
        ApiResponse refused =
                new ApiResponse()
                        .description("Refused, with the reason")
                        .content(
                                new Content()
                                        .addMediaType(
                                                "application/problem+json",
                                                new MediaType()
                                                        .schema(
                                                                new Schema<>()
                                                                        .$ref(
                                                                                "#/components/schemas/Problem"))));
        if (api.getPaths() != null) {
            api.getPaths()
                    .values()
                    .forEach(
                            path ->
                                    path.readOperations()
                                            .forEach(
                                                    o ->
                                                            o.getResponses()
                                                                    .addApiResponse(
                                                                            "default", refused)));
        }
    }

    /** {@link Paging} is read by a resolver that the description does not know. */
    @Bean
    OperationCustomizer pagesOfLists() {
        return (operation, method) -> {
            boolean paged =
                    Arrays.stream(method.getMethodParameters())
                            .anyMatch(p -> p.getParameterType() == Paging.class);
            if (paged) {
                operation.setParameters(
                        operation.getParameters() == null
                                ? new ArrayList<>()
                                : new ArrayList<>(operation.getParameters()));
                operation.getParameters().removeIf(p -> p.getName().equals("paging"));
                IntegerSchema size = new IntegerSchema();
                size.setMinimum(BigDecimal.ONE);
                size.setMaximum(BigDecimal.valueOf(Paging.LARGEST));
                size.setDefault(Paging.USUAL);
                operation.addParametersItem(new Parameter().in("query").name("size").schema(size));
                operation.addParametersItem(
                        new Parameter()
                                .in("query")
                                .name("after")
                                .description("From a Link header, as it stands")
                                .schema(new StringSchema()));
            }
            return operation;
        };
    }
}
