package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.BenchMessage.Greeting;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a host takes from a bench. In these texts S stands for session and its value. */
class MessageReaderTest {
    private static final String S = "'session':'5be1c07d'";

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'m':'pong','id':1,S,'next':0}",
                "{'m':'pong','id':1,S,'next':0,'now-us':-1}",
                "{'m':'done','id':1,S}",
                "{'m':'refused','id':1,S}",
                "{'m':'dance','id':1,S}",
                "{'m':'edge','n':1,S,'t-us':1,'point':'D1','to':2}",
                "{'m':'edge','n':1,S,'t-us':1,'point':'D 1','to':1}",
                "{'m':'state','n':1,S,'t-us':1,'armed':1,'stop':false,'bad-lines':0,'digital':{}}",
                "{'m':'state','n':1,S,'t-us':1,'armed':true,'stop':false,'bad-lines':0,'digital':{'D1':true}}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':[],'v':[]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':0,'points':['P1'],'v':[[1]]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':[[1,2]]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':[[1],[2,3]]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':[[1.5]]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':[[3000000000]]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':[1]}",
                "{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':'0100'}",
                "{'m':'ping','id':1,S}",
            })
    void whatIsNoMessageOfABenchIsDropped(String text) {
        assertEquals(Optional.empty(), read(text));
    }

    @Test
    void everythingThatABenchMaySayIsUnderstood() {
        assertTrue(read("{'m':'samples','n':1,S,'name':'a','of':2,'t0-us':1,'every-us':1,'points':['P1'],'v':[]}")
                .isPresent());
        assertTrue(read("{'m':'safe','n':1,S,'t-us':1,'why':'host','by':'0badcafe','x':1}")
                .isPresent());
        assertTrue(read("{'m':'safe','n':1,S,'t-us':1,'why':'a later word'}").isPresent());
        assertTrue(read("{'m':'fault','n':1,S,'t-us':1,'point':'P1','why':'a later word'}")
                .isPresent());
        assertTrue(read("{'m':'refused','id':1,S,'why':'out-of-luck: text'}").isPresent());
    }

    @Test
    void whateverJsonAllowsIsUnderstood() {
        String digits = "7".repeat(500);
        assertEquals(
                read("{'m':'pong','id':0,S,'next':0,'now-us':5}"),
                read("\t{ 'x' : -" + digits + " ,'y':[1.5e-400,{'n':null,'':true}],'z':'\\ud800\\u0000\\/',"
                        + "'\\u006d':'p\\u006Fng' ,S,'now-us':5,\t'id':-0,'n\\u0065xt':0 } "));
        assertTrue(read("{'m':'samples','n':9007199254740991,S,'name':'a','of':2147483647,'t0-us':9007199254740991,"
                        + "'every-us':2147483647,'points':['P1'],'v':[[-2147483648],[2147483647],[-0]]}")
                .isPresent());
    }

    @Test
    void pointsOfKindsToComeAreLeftOut() {
        Greeting bench = (Greeting) read(card("{'name':'T1','kind':'thermo-in','min':0,'max':9},"
                        + "{'name':'C1','kind':'counter-in','min':0,'max':65535}"))
                .orElseThrow();
        assertEquals(1, bench.card().points().size());
        assertEquals("C1", bench.card().points().get(0).name());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'name':'P1','kind':'analog-in'}",
                "{'name':'P1','kind':'analog-in','min':2,'max':1}",
                "{'name':'H1','kind':'analog-out','min':0,'max':9,'safe':10}",
                "{'name':'W1','kind':'digital-out'}",
                "{'name':'D1','kind':'digital-in'},{'name':'D1','kind':'digital-in'}",
                "{'name':'D1','kind':'digital-in','stamp-us':-1}",
            })
    void aBenchThatSaysWhatCannotBeIsNotUnderstood(String points) {
        assertEquals(Optional.empty(), read(card(points)));
    }

    private static String card(String points) {
        return "{'m':'bench','id':1,S,'next':0,'link':1,'name':'b','boot':'90c4a1f3','now-us':1,"
                + "'clock-ppm':50,'queue':1,'max-beat-ms':500,'max-line':4096,'dense':false,'points':[" + points + "]}";
    }

    private static Optional<BenchMessage> read(String text) {
        return MessageReader.benchMessage(
                text.replace("S", S).replace('\'', '"').getBytes(UTF_8));
    }
}
