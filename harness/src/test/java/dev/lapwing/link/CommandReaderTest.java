package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.UTF_16BE;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.HostMessage.Unreadable;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is dropped, what is refused and what is taken. In these texts S stands for session and its value. */
class CommandReaderTest {
    private static final String S = "'session':'5be1c07d'";

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "{",
                "[]",
                "{}",
                "ping",
                "{'m':'ping','id':1}",
                "{'m':'ping',S}",
                "{'m':'ping','id':-1,S}",
                "{'m':'ping','id':2147483648,S}",
                "{'m':'ping','id':1.0,S}",
                "{'m':'ping','id':'1',S}",
                "{'m':'ping','id':1,'session':'5BE1C07D'}",
                "{'m':'ping','id':1,'session':'5be1c07'}",
                "{'m':'ping','id':1,'session':7}",
                "{'m':'ping','id':1,S} {}",
                "{'m':'ping','id':1,'id':1,S}",
                "{'m':'ping','id':1,S,'x':[[[[[[[[1]]]]]]]]}",
                "{'m':'beat',S,'k':1}",
                "{'m':'beat',S,'k':-1,'seen-us':1}",
                "{'m':'beat',S,'k':1,'seen-us':9007199254740992}",
            })
    void whatNobodyCanBeAnsweredForIsDropped(String text) {
        assertEquals(Optional.empty(), read(text));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'id':1,S}",
                "{'m':7,'id':1,S}",
                "{'m':null,'id':1,S}",
                "{'m':'hello','id':1,S,'link':1}",
                "{'m':'stream','id':1,S,'points':[]}",
                "{'m':'stream','id':1,S,'name':'a b','points':[]}",
                "{'m':'stream','id':1,S,'name':'a','points':['P1']}",
                "{'m':'stream','id':1,S,'name':'a','points':['P1'],'every-us':0,'batch':1,'flush-ms':1}",
                "{'m':'stream','id':1,S,'name':'a','points':['P1'],'every-us':1,'batch':0,'flush-ms':1}",
                "{'m':'stream','id':1,S,'name':'a','points':['P1'],'every-us':1,'batch':1,'flush-ms':1,'dense':1}",
                "{'m':'stream','id':1,S,'name':'a','points':['P1','P1'],'every-us':1,'batch':1,'flush-ms':1}",
                "{'m':'stream','id':1,S,'name':'a','points':[1],'every-us':1,'batch':1,'flush-ms':1}",
                "{'m':'arm','id':1,S,'boot':'90c4a1f3','until-us':1}",
                "{'m':'arm','id':1,S,'boot':'90c4a1f','until-us':1,'beat-ms':300}",
                "{'m':'arm','id':1,S,'boot':'90c4a1f3','until-us':1,'beat-ms':300,'limits':{'P1':[1]}}",
                "{'m':'arm','id':1,S,'boot':'90c4a1f3','until-us':1,'beat-ms':300,'limits':{'P1':[2,1]}}",
                "{'m':'arm','id':1,S,'boot':'90c4a1f3','until-us':1,'beat-ms':300,'limits':{'P1':[1,true]}}",
                "{'m':'set','id':1,S,'boot':'90c4a1f3','points':{},'until-us':1}",
                "{'m':'set','id':1,S,'boot':'90c4a1f3','points':{'W1':true},'until-us':1}",
                "{'m':'set','id':1,S,'boot':'90c4a1f3','points':{'W1':1}}",
                "{'m':'set','id':1,S,'boot':'90c4a1f3','points':{'W1':1},'at-us':2,'until-us':1}",
                "{'m':'set','id':1,S,'boot':'90c4a1f3','points':{'W1':1},'until-us':1,'over-us':-1}",
            })
    void whatDoesNotFitIsABadMessage(String text) {
        Unreadable unreadable = assertInstanceOf(Unreadable.class, read(text).orElseThrow());
        assertEquals(Refusal.BAD_MESSAGE, unreadable.why());
        assertEquals(1, unreadable.id());
        assertTrue(unreadable.what().startsWith("'"), unreadable.what());
    }

    @Test
    void anUnknownMessageIsUnsupported() {
        Unreadable unreadable = assertInstanceOf(
                Unreadable.class, read("{'m':'dance','id':1,S}").orElseThrow());
        assertEquals(Refusal.UNSUPPORTED, unreadable.why());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "'link':2,", "'link':'1',", "'link':1.0,", "'link':-1,", "'link':null,"})
    void aHelloThatSaysNoLinkOrAnotherIsOfAnotherLink(String link) {
        Hello hello = assertInstanceOf(
                Hello.class, read("{'m':'hello'," + link + "'id':1,S}").orElseThrow());
        assertNotEquals(Wire.LINK, hello.link());
    }

    @Test
    void aPointThatCannotBeIsForTheBenchToTell() {
        Stream stream = assertInstanceOf(
                Stream.class,
                read("{'m':'stream','id':1,S,'name':'a','points':['B P'],'every-us':1,'batch':1,'flush-ms':1}")
                        .orElseThrow());
        assertEquals(List.of("B P"), stream.points());
    }

    @Test
    void aRampMayTakeDays() {
        HostMessage.Set set = assertInstanceOf(
                HostMessage.Set.class,
                read("{'m':'set','id':1,S,'boot':'90c4a1f3','points':{'H1':1},'until-us':1,'over-us':9007199254740991}")
                        .orElseThrow());
        assertEquals(Wire.NUMBER_MAX, set.overUs());
    }

    @Test
    void aNumberThatNobodyAsksForMayBeAsLongAsTheLine() {
        String digits = "9".repeat(2_000);
        assertEquals(
                new Ping("5be1c07d", 1),
                read("{'x':-" + digits + ",'y':[0." + digits + "],'m':'ping','id':1,S,'v':[[" + digits + "]]}")
                        .orElseThrow());
    }

    @Test
    void unknownMembersAreLeftOut() {
        assertEquals(
                new Ping("5be1c07d", 1),
                read(" {'x':{'y':[1.5,null,1e99]},'m':'ping','id':1,'v':[1,{},[2]],S,'z':123456789012345678901}")
                        .orElseThrow());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'m':'safe'}",
                "{'m':'safe','id':1}",
                "{'m':'safe',S,'id':null}",
                "{'m':'safe','id':1,'session':{}}"
            })
    void aSafeIsASafeWhateverElseIsWrongWithIt(String text) {
        assertEquals(new Safe("", Safe.NO_ID), read(text).orElseThrow());
    }

    @Test
    void limitsMayLeaveASideOpen() {
        Arm arm = (Arm) read("{'m':'arm','id':1,S,'boot':'90c4a1f3','until-us':1,'beat-ms':300,"
                        + "'limits':{'P1':[null,5],'P2':[-3,null],'P3':[7,7]}}")
                .orElseThrow();
        assertEquals(new Limit(Limit.NO_LOW, 5), arm.limits().get("P1"));
        assertEquals(new Limit(-3, Limit.NO_HIGH), arm.limits().get("P2"));
        assertEquals(new Limit(7, 7), arm.limits().get("P3"));
        assertEquals(Optional.of(arm), CommandReader.hostMessage(CommandWriter.json(arm)));
    }

    @Test
    void endingAStreamNeedsNothingButItsName() {
        Stream end =
                (Stream) read("{'m':'stream','id':1,S,'name':'a','points':[]}").orElseThrow();
        assertEquals("a", end.name());
    }

    @Test
    void aHelloOfAnotherLinkKeepsItsNumberOnly() {
        assertEquals(
                new HostMessage.Hello("5be1c07d", 1, 2, ""),
                read("{'m':'hello','id':1,S,'link':2,'guest':true}").orElseThrow());
    }

    @Test
    void onlyUtf8IsRead() {
        String ping = "{'m':'ping','id':1,S}".replace("S", S).replace('\'', '"');
        assertEquals(Optional.empty(), CommandReader.hostMessage(ping.getBytes(UTF_16LE)));
        assertEquals(Optional.empty(), CommandReader.hostMessage(ping.getBytes(UTF_16BE)));
        assertEquals(Optional.empty(), CommandReader.hostMessage(("\ufeff" + ping).getBytes(UTF_8)));
        byte[] broken =
                ("{'m':'hello','id':1,'link':1,'host':'??',S}".replace("S", S).replace('\'', '"')).getBytes(UTF_8);
        for (int i = 0; i < broken.length; i++) {
            broken[i] = broken[i] == '?' ? (byte) 0xc3 : broken[i];
        }
        assertEquals(Optional.empty(), CommandReader.hostMessage(broken));
    }

    private static Optional<HostMessage> read(String text) {
        return CommandReader.hostMessage(text.replace("S", S).replace('\'', '"').getBytes(UTF_8));
    }
}
