package strokewright.quote;

import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.enums.ParameterIn;
import io.swagger.v3.oas.annotations.media.ArraySchema;
import io.swagger.v3.oas.annotations.media.Schema;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Marks an address that {@link SearchReading} reads the filters of, and describes them for the
 * interface's description, which cannot see them.
 */
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
@Parameter(
        name = "number",
        in = ParameterIn.QUERY,
        description = "The number or how it begins",
        example = "Q-2026-0012",
        schema = @Schema(type = "string"))
@Parameter(
        name = "customer",
        in = ParameterIn.QUERY,
        description =
                "Part of the customer's name, as it stood on the quote or as it is today; or the"
                        + " customer's id",
        schema = @Schema(type = "string"))
@Parameter(
        name = "text",
        in = ParameterIn.QUERY,
        description =
                "At most ten words, each of which has to stand in the number, a title, customer,"
                        + " contact, reference, order number or notes; case does not matter",
        schema = @Schema(type = "string"))
@Parameter(
        name = "metal",
        in = ParameterIn.QUERY,
        description =
                "With an item of this grade, by its code, or of this family of the shop book; of"
                        + " one and the same item with size and thickness",
        example = "aluminium-soft",
        schema = @Schema(type = "string"))
@Parameter(
        name = "sizeFromMm",
        in = ParameterIn.QUERY,
        description =
                "With an item of at least this size, by what it is known by: the largest diameter,"
                        + " else of a bend, else the extent of an outline, else the longest blank",
        schema = @Schema(type = "number", minimum = "0"))
@Parameter(
        name = "sizeToMm",
        in = ParameterIn.QUERY,
        description = "With an item of at most this size",
        schema = @Schema(type = "number", minimum = "0"))
@Parameter(
        name = "thicknessMm",
        in = ParameterIn.QUERY,
        description = "With an item whose thickest part is so thick, to 0.005 mm",
        schema = @Schema(type = "number", minimum = "0"))
@Parameter(
        name = "state",
        in = ParameterIn.QUERY,
        description =
                "In one of these states today in the shop's time zone; lapsed is what was issued"
                        + " and whose last day has passed, it is not issued any more",
        array =
                @ArraySchema(
                        schema =
                                @Schema(
                                        type = "string",
                                        allowableValues = {
                                            "draft",
                                            "issued",
                                            "accepted",
                                            "declined",
                                            "lapsed",
                                            "withdrawn"
                                        })))
@Parameter(
        name = "from",
        in = ParameterIn.QUERY,
        description =
                "First day of the date in the shop's time zone: of issue, or of a draft's last"
                        + " change. Both ends count, here and below",
        schema = @Schema(type = "string", format = "date"))
@Parameter(
        name = "to",
        in = ParameterIn.QUERY,
        description = "Last day of that date",
        schema = @Schema(type = "string", format = "date"))
@Parameter(
        name = "validFrom",
        in = ParameterIn.QUERY,
        description = "Valid until this day or longer; quotes without a last day are left out",
        schema = @Schema(type = "string", format = "date"))
@Parameter(
        name = "validTo",
        in = ParameterIn.QUERY,
        description = "Valid until this day or shorter; quotes without a last day are left out",
        schema = @Schema(type = "string", format = "date"))
@Parameter(
        name = "netFrom",
        in = ParameterIn.QUERY,
        description = "Of at least this total before tax, in the quote's own currency",
        schema = @Schema(type = "number", minimum = "0"))
@Parameter(
        name = "netTo",
        in = ParameterIn.QUERY,
        description = "Of at most this total before tax, in the quote's own currency",
        schema = @Schema(type = "number", minimum = "0"))
@Parameter(
        name = "estimator",
        in = ParameterIn.QUERY,
        description = "Begun by somebody with this in the name; or a user's id",
        schema = @Schema(type = "string"))
@interface Filters {}
